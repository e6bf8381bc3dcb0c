"""html."""
