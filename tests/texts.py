"""A specification from a text alone, without a file and without a repository around it."""

from __future__ import annotations

from hts.base.text import Source
from hts.language.model import Loader, Spec


def spec_of(text: str, name: str = "example.hts") -> Spec:
    """The text read as a specification that uses no other file."""
    return Spec(Source(text, name), Loader("/"))
