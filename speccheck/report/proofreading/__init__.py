"""proofreading."""
