"""What was found is weighed: leftovers, what a line stands in besides, and how the words of a theme are said."""
