"""Tables of others, row by row: separated values, spreadsheets, a list in JSON. Pure: nothing is written."""
