"""What a procedure says taken by itself, and what it asks of a job beyond limits."""
