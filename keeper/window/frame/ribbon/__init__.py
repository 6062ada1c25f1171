"""The ribbon: one year as a thin band along the bottom."""
