"""Settings of all tests."""

import os

from hypothesis import settings

# How long an example takes depends on the machine and on what it reads first; speed is for
# tests/bench. HYPOTHESIS_PROFILE=full draws as many examples as .ci/run does.
settings.register_profile("short", deadline=None, max_examples=25)
settings.register_profile("full", deadline=None, max_examples=200)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "short"))
