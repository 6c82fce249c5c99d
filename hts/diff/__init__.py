"""What changed between two specifications, told by meaning."""
