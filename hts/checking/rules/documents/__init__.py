"""History, approvals and open points."""
