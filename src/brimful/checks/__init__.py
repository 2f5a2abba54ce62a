"""Registered functions from a Design to Findings, one module a topic."""
