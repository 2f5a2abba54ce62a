"""Daily weather files read into one shape, gaps filled by stated rules."""
