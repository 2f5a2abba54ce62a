"""Drip zones: friction, emitters, networks and their solution."""
