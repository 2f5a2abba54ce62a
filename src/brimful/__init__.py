"""Brimful: works out a season of display containers on drip irrigation, from one plan file."""
