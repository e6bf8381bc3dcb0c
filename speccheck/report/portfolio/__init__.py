"""portfolio."""
