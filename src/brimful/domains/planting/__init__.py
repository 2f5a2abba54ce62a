"""Plants in a container: canopy, layout, growth, colour."""
