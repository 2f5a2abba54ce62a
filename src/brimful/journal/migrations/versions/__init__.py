"""The steps; one that has been published is never changed."""
