"""Tests of the demonstrations in `examples/`."""
