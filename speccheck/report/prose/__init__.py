"""prose."""
