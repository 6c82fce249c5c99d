"""Values against the limits of books and procedures."""
