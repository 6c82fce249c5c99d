"""From a text to its findings, and how they are told."""
