"""Requirement sets of the kind that navies, refineries, erectors and vessel makers write: every
statement has its line in a procedure, and none is lost to free text. Owners and figures are
invented; the kinds are those of the public documents named in grammar/REQUIREMENTS.md."""

from __future__ import annotations

from pathlib import Path

from hts.base.text import Source
from hts.language.model import Loader, Spec
from tests.rows import each_row

_TEXT = (Path(__file__).parent / "owners.txt").read_text("utf-8")
SETS = {
    name.strip(): [
        (what.strip(), line.strip())
        for what, line in (row.split(" | ") for row in rows.splitlines() if row.strip())
    ]
    for name, _, rows in (part.partition("\n") for part in _TEXT.split("\n## ")[1:])
}


def test_there_are_eighteen_and_more_than_a_hundred_statements() -> None:
    assert len(SETS) == 18
    assert sum(map(len, SETS.values())) > 140


@each_row("name", SETS)
def test_every_statement_is_said(name: str) -> None:
    lost = []
    for what, line in SETS[name]:
        assert not line.startswith(("check", "caution", "leaves to the job")), what
        spec = Spec(Source(f"spec 1\nprocedure K {{\n  {line}\n}}\n", name), Loader("/"))
        lost += [f"{what}: {line}: {finding.message}" for finding in spec.findings]
    assert lost == []
