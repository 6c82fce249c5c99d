"""Specification language for preheat, hydrogen bake-out and post-weld heat treatment of welds."""

__version__ = "0.1.0"
