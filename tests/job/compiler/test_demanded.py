"""What is printed of each demand of a procedure: its words, and the lines that meet it."""

from __future__ import annotations

import pytest

from hts.checking.govern.case import Case
from hts.checking.rules.examples import BASES
from hts.job.compiler.demanded import ProcedureDemand, procedure_demands
from tests.rows import each_row
from tests.texts import spec_of

TEXT = BASES["bake"]
LAST = "  recorder interval at most 60 s\n"


def demanded(line: str) -> ProcedureDemand:
    """What comes of one line more of the procedure."""
    text = TEXT.replace(LAST, f"{LAST}  {line}\n")
    number = text[: text.index(f"  {line}\n")].count("\n") + 1
    made = procedure_demands(Case(spec_of(text), "2026-11-20"))
    (found,) = (one for one in made if one.line == f"line {number}")
    assert found.procedure == "P-07"
    return found


def at(words: str) -> str:
    """The line of the text that begins so, as it is printed."""
    lines = TEXT.split("\n")
    (number,) = (n for n, line in enumerate(lines, 1) if " ".join(line.split()).startswith(words))
    return f"line {number}: {' '.join(lines[number - 1].split()).removesuffix(' {')}"


@each_row(
    ("line", "what", "joint", "verdict", "where"),
    [
        ("requires expansion free", "requires expansion free", "W12", "met", at("expansion")),
        # Why is told in place of a line.
        ("requires drawing", "requires drawing", "W12", "not met", "it does not say `drawing`"),
        ("forbids insulation", "forbids insulation", "W12", "not met", "it is there"),
        ("forbids drawing", "forbids drawing", "W12", "met", "not in the job"),
        # Of eight thermocouples three are named, and the others counted.
        ("requires thermocouple channel", "requires thermocouple channel", "W12", "met",
         f"{at('T1 ')}; {at('T2 ')}; {at('T1S')} and 5 more"),
        ("requires thermocouple monitors soak edge or heated edge",
         "requires thermocouple monitors soak edge or heated edge", "W12", "met",
         f"{at('T3')}; {at('T4')}; {at('T5')} and 1 more"),
        # Two are named, and none is left to count.
        ("requires thermocouple spare for T1 or T2", "requires thermocouple spare for T1 or T2",
         "W12", "met", f"{at('T1S')}; {at('T2S')}"),
        ("requires expansion free when thicker_wall > 10 mm",
         "requires expansion free when thicker_wall > 10 mm", "W12", "met", at("expansion")),
        ("requires expansion guided, else support locked or fixed when thicker_wall > 10 mm",
         "requires expansion guided, else support locked or fixed when thicker_wall > 10 mm",
         "W12", "met", at("support")),
        # On the document, which is of no joint.
        ("requires permit", "requires permit", "", "not met", "it does not say `permit`"),
    ],
)  # fmt: skip
def test_a_demand(line: str, what: str, joint: str, verdict: str, where: str) -> None:
    found = demanded(line)
    assert (found.what, found.joint, found.verdict, found.where) == (what, joint, verdict, where)
    assert found.note == ""


@each_row("said", ["copper-connectors", "C124"])
@each_row("forbidden", ["copper-connectors", "C124"])
def test_a_waiver_is_forbidden_by_either_name_of_its_rule(said: str, forbidden: str) -> None:
    lines = '  reason "none"\n  by "Owner\'s engineer"\n  until 2027-01-31\n'
    waiver = f"waive {said} on W12 {{\n{lines}}}\n"
    text = TEXT.replace(LAST, f"{LAST}  forbids waive {forbidden}\n") + waiver
    (found,) = (
        one
        for one in procedure_demands(Case(spec_of(text), "2026-11-20"))
        if one.what == f"forbids waive {forbidden}"
    )
    assert found.verdict == "not met"


def test_those_on_the_document_come_first() -> None:
    text = TEXT.replace(LAST, f"{LAST}  requires permit\n")
    joints = [one.joint for one in procedure_demands(Case(spec_of(text), "2026-11-20"))]
    assert joints[0] == "" and len(joints) > 3 and {*joints[1:]} == {"W12"}


def test_none_is_left_to_count(monkeypatch: pytest.MonkeyPatch) -> None:
    """As many places as are named."""
    monkeypatch.setattr("hts.job.compiler.demanded._PLACES", 2)
    found = demanded("requires thermocouple spare for T1 or T2")
    assert found.where == f"{at('T1S')}; {at('T2S')}"
