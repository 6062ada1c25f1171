"""One person: the page of them, days to remember, photos they are on, and birthdays in and out."""
