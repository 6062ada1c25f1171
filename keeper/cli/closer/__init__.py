"""Commands that look closer at readings: what is tried, and a page for a clinician."""
