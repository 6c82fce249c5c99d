"""Answers about rules, books and derived values, as text and as JSON."""
