"""Photos: what is known of them, and their files."""
