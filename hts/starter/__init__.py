"""A first specification, written from a few answers."""
