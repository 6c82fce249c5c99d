"""`python -m hts`."""

import os
import sys

# Python puts the working folder before everything else: a module of a checkout that is only to be
# checked would be run in place of the one meant. (`python -P` leaves it out from the start.)
_HOME = os.path.dirname(os.path.dirname(os.path.realpath(__file__)))
if not sys.flags.safe_path and sys.path and os.path.realpath(sys.path[0]) != _HOME:
    del sys.path[0]

from hts.cli.main import start  # noqa: E402

start()
