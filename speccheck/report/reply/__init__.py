"""reply."""
