"""The steps of a cycle."""
