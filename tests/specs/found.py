"""Findings of a file of ``specs/``, as the lines of an ``.expected`` file say them."""

from __future__ import annotations

from pathlib import Path

from hts.checking.checker.check_paths import check_paths

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
