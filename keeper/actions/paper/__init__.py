"""What is made for paper: the book of a year and the sheet of a month."""
