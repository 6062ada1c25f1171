"""One history of all that a person did: noted by the file itself, taken back and done again."""
