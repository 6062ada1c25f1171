"""Texts of others that have dates in them: plain text, Markdown, calendars, a folder of texts. Pure: nothing is written."""
