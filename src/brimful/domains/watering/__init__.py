"""Demand, store and run time."""
