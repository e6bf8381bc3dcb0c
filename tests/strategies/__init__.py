"""Hypothesis strategies that several test folders share."""
