"""The page: the same services in a browser, at the desk and in the garden."""
