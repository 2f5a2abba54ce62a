"""The plan file: its schema, reading with line and column kept, starters."""
