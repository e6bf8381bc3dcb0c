"""Tests of the floor `quantities`."""
