"""The packet of one joint: everything the person at the pipe carries, as one PDF."""
