"""Sections read, drafted from and covered."""
