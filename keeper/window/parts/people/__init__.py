"""People as several pages show them."""
