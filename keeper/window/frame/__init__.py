"""The window round the pages."""
