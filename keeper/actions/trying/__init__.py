"""Finding out by trying: a plan drawn by lot, kept to night by night, and what came of it."""
