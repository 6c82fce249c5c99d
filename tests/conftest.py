"""Settings of all tests."""

from hypothesis import settings

# How long an example takes depends on the machine and on what it reads first; speed is for
# tests/bench.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
