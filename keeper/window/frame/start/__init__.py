"""What lets one type soon: what is put off until then, and in which order it comes."""
