"""People and their days in open formats: cards (RFC 6350), birthdays in calendars (RFC 5545)."""
