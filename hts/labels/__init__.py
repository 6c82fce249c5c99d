"""Flags for thermocouple leads, a sheet of them as PDF."""
