"""Look-up of pipe sizes and steel grades in the shipped data."""
