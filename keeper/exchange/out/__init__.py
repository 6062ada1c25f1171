"""What is kept, in open formats: plain text, CSV, JSON, iCalendar, GeoJSON."""
