"""Findings written out: for people at a terminal, and for machines."""
