"""A page to send: as one HTML file that stands alone, and laid out for typst."""
