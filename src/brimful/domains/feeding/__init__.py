"""Feed arithmetic and nitrogen balance."""
