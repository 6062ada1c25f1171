"""Photos: taking in one or many, offering, showing."""
