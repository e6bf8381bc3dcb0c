"""terminal."""
