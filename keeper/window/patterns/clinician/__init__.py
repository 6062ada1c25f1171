"""The page for a clinician: chosen, looked at, saved."""
