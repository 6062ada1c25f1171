"""What came from paper: pages of a notebook, and lines that were typed up."""
