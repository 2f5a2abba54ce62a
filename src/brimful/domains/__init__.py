"""What Brimful exists for: pure sums, islands that never import each other."""
