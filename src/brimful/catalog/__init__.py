"""Reference tables, one CSV each, every row with its source and how sure it is."""
