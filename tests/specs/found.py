"""Findings of a file of ``specs/``, as the lines of an ``.expected`` file say them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from hts.base.findings import Finding
from hts.base.text import Source
from hts.checking.checker import check_spec
from hts.checking.checker.check_paths import check_paths
from hts.language.model import Spec
from tests.texts import examples

SPECS = Path(__file__).resolve().parents[2] / "specs"
#: A day all certificates of the shared library cover.
TODAY = "2026-12-01"


def found(path: Path, today: str | None = TODAY) -> list[str]:
    """One line for a finding: ``CODE name line:column address``, in the order they are told.

    A place outside the file itself is given with the name of its file.
    """
    results = check_paths([str(path)], today=today)
    assert not results.failures
    lines = []
    for finding in results.findings:
        source = finding.source
        line, column = source.position(finding.at.span.start)
        place = f"{line}:{column}"
        if Path(source.name).name != path.name:
            place = f"{source.name}:{place}"
        address = finding.address or "-"
        lines.append(f"{finding.kind.code} {finding.kind.name} {place} {address}")
    return lines


def changed(text: str, changes: Iterable[tuple[str, str]]) -> str:
    """A text with passages replaced, (old, new): each has to stand there once.

    Columns are the layout's business: a blank of the old text stands for any number of them, and
    for line ends.
    """
    for old, new in changes:
        pattern = r"\s+".join(map(re.escape, old.split()))
        text, count = re.subn(pattern, lambda _, new=new: new, text)  # type: ignore[misc]
        assert count == 1, (old, count)
    return text


def checked(path: Path, text: str, today: str | None = TODAY) -> list[Finding]:
    """The findings about a text read as if it lay at ``path``."""
    loader = examples()
    return check_spec(Spec(Source(text, loader.name(str(path)), str(path)), loader), today)
