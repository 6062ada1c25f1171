"""What was done: taken back, done again, looked through."""
