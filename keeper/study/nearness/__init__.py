"""Lines near to a few half remembered words: by stems, spelling and what a dictionary puts side by side."""
