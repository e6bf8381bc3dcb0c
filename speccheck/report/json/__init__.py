"""json."""
