"""What a team sets once in `hts.toml` or `[tool.hts]`, and the baseline of findings."""
