"""Quantities to buy, counted from the design."""
