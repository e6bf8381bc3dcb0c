"""Small programs that keep pages of the repository current."""
