"""Channels, circuits and programs."""
