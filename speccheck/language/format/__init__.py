"""format."""
