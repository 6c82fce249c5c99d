"""The language: its words, its layout, what a text says once names are resolved."""
