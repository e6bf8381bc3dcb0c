"""syntax."""
