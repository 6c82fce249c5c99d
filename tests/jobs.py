"""Compiled jobs of specifications in the repository, each compiled once in a process."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from hts.job.compiler import Job, compile_spec
from hts.language.model import Spec
from tests.texts import examples


@cache
def job_at(path: Path) -> Job:
    """The compiled job of a file that no test changes."""
    return compile_spec(Spec(examples().read(str(path)), examples()))
