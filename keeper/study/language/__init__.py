"""Words, names and direction in the languages that people write."""
