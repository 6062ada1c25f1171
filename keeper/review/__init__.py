"""What a page or a book shows, as frozen dataclasses."""
