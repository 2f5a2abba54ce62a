"""Container geometry: slices, volumes, weights."""
