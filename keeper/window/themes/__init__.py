"""The pages of themes."""
