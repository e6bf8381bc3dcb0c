"""word."""
