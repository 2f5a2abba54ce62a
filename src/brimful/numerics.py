"""Shared mathematics of the domains: nothing here knows what a container is."""
