"""A review made into a printed book: its words and photos handed to typst, and the PDF that comes of it."""
