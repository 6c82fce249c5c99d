"""Settings of all tests."""

import atexit
import gc
import os
import shutil
import sys
import tempfile

from hypothesis import settings

import hts.cli.today

# Predictions solve small systems: threads of the library below numpy would wait for each other.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# Outcomes kept by a run of the tests are nobody else's, and last no longer than it.
os.environ["HTS_CACHE_KEY"] = "a key of the tests alone"
os.environ["HTS_CACHE_DIR"] = os.path.join(_kept := tempfile.mkdtemp(prefix="hts-tests-"), "cache")
atexit.register(shutil.rmtree, _kept, ignore_errors=True)

# Where nothing may be compiled beside the sources, each process that a test begins would compile
# the program anew.
if sys.dont_write_bytecode:
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    os.environ["PYTHONPYCACHEPREFIX"] = os.path.join(_kept, "compiled")

# How long an example takes depends on the machine and on what it reads first; speed is for
# tests/bench. HYPOTHESIS_PROFILE=full draws as many examples as .ci/run does.
# The same examples every time: who changes nothing sees nothing fail. `search` draws new ones.
settings.register_profile("short", deadline=None, max_examples=25, derandomize=True)
settings.register_profile("full", deadline=None, max_examples=50, derandomize=True)
settings.register_profile("search", deadline=None, max_examples=1000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "short"))


def pytest_xdist_auto_num_workers() -> int:
    """One more than there are cores: tests that wait for a browser or a server leave one free."""
    return (os.cpu_count() or 1) + 1


def pytest_configure() -> None:
    """Certificates of the examples run out one day: tests do not, for the clock stands still."""
    hts.cli.today.clock = lambda: "2026-11-20"


# Hardly anything is left in circles: to look for it as often as Python does takes a twentieth of
# the time of all tests. Looking for it here and there keeps the memory small.
gc.disable()


def pytest_collection_finish() -> None:
    """Thousands of collected tests stay until the end: nothing is won by looking for what of them
    could be thrown away, again and again."""
    gc.collect()
    gc.freeze()


def pytest_sessionfinish() -> None:
    """At the end all is thrown away at once: nothing has to be looked for in it, five times."""
    gc.freeze()
