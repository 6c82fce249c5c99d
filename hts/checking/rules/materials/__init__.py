"""Base metals."""
