"""Benchmarks: `python -m benchmarks` prints a table of times, as ratios within one run where they can be."""
