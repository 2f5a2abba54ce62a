"""Design in, text out; nothing is worked out here."""
