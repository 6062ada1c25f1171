"""Reading in what a person wrote elsewhere: looked at, weighed, kept as one act; and the in-tray."""
