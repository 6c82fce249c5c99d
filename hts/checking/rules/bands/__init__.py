"""Widths heated and insulated."""
