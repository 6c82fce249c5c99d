"""Plausible values."""
