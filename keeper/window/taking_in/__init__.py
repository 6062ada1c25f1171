"""The page on which files written elsewhere are read in, and the in-tray."""
