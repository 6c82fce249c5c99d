"""Thermocouple wire, instruments and calibration."""
