"""Reading in odd files, and the in-tray, on the command line."""
