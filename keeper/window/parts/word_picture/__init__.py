"""The picture of words."""
