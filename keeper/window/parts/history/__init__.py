"""What was done and what was worded otherwise, as rows that can be had back; shown on Lately and on Find."""
