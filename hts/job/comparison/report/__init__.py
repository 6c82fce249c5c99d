"""A comparison written out: for a terminal, for machines, for a merge request."""
