"""markdown."""
