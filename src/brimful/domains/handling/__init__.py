"""Weights, lifting, wind."""
