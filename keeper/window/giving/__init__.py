"""The page of giving: everything out in open formats, and an archive taken in."""
