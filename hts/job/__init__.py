"""The compiled job: its tables, its reasons, and what changed between two of them."""
