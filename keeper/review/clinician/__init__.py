"""The page for a clinician: chosen readings over chosen nights, and what is told of them."""
