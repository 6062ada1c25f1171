"""The pages of places."""
