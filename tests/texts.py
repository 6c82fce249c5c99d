"""A specification from a text alone, without a file and without a repository around it, or read
among the files of this one."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from hts.base.text import Source
from hts.language.model import Loader, Spec


def spec_of(text: str, name: str = "example.hts") -> Spec:
    """The text read as a specification that uses no other file."""
    return Spec(Source(text, name), Loader("/"))


@cache
def examples() -> Loader:
    """Reads files of this repository. A library that many use is read once in a process."""
    return Loader(str(Path(__file__).parents[1]))
