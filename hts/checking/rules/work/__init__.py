"""Checks and points before, during and after heat."""
