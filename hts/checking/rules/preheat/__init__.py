"""Preheat, interpass temperature and hydrogen release."""
