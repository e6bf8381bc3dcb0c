"""vocabulary."""
