"""Trade rules: one file each, with its explanation, source and examples."""
