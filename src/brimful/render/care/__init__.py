"""Build and care as pages: what to buy, how to build and keep it, how to feed it."""
