"""The weld and its qualification."""
