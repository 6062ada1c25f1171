"""Finding out by trying: the plans as the lot fell."""
