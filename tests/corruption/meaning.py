"""Whether two texts say the same: a change that leaves the meaning is no wrong fact."""

from __future__ import annotations

from typing import Any

from hts.base.findings import Report
from hts.base.text import Source
from hts.language.vocabulary.export import export
from hts.language.vocabulary.reader import Reader
from hts.language.vocabulary.spec import File
from hts.syntax import parse


def meaning(text: str) -> Any:
    """All a text says, quantities by value and not by how they are written."""
    source = Source(text, "text", None)
    report = Report()
    return _bare(export(Reader(source, report, File).read(parse(source, report).entries)))


def _bare(said: Any) -> Any:
    if isinstance(said, dict):
        return {key: _bare(value) for key, value in said.items() if key != "written"}
    if isinstance(said, list):
        return [_bare(value) for value in said]
    return said
