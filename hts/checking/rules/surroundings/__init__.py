"""Ends, bore, supports and things close by."""
