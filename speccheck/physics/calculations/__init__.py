"""calculations."""
