"""What several rooms show of photos."""
