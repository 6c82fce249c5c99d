"""The recorded run held against the compiled job."""
