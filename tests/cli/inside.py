"""`hts` run in this process, as its entry point runs it: a tenth of what a process costs."""

from __future__ import annotations

import subprocess
from contextlib import chdir
from pathlib import Path

from tests.fuzz.run import run


def hts(folder: str | Path, *arguments: str, data: bytes = b"") -> subprocess.CompletedProcess[str]:
    """What came of the command in a folder, with this on its standard input."""
    with chdir(folder):
        ran = run(arguments, data)
    return subprocess.CompletedProcess(["hts", *arguments], ran.code, ran.out, ran.err)
