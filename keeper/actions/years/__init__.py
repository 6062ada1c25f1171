"""Years: their material, their page, the sitting."""
