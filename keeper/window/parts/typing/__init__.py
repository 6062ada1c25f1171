"""What is typed into, and how it is kept on the way."""
