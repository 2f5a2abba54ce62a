"""Planting: layout, growth, palette, bloom, order and upkeep of a settled plan; what can stand in for a plant."""
