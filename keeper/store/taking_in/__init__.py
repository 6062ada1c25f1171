"""What a file brings, thousands at a time."""
