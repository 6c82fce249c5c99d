"""What a procedure requires of the entries of a job is there, and says what it has to."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.demanded import tell
from hts.checking.rules.rule import Bad, Edge, Good, Rule

_LINE = "  requires spare for controlling thermocouples"


def _demand(text: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f"  {text}\n{_LINE}"),)


RULE = Rule(
    "R111",
    "demand-not-met",
    "error",
    summary="An entry of a job that a procedure requires is missing, or says something else.",
    why="The owner asked for it: what is not in the job is not on the paper, and nobody does it.",
    fix="Write into the job what the line of the procedure asks for, or ask its owner.",
    source="the procedure that says so",
    basis="derived",
    bad=(Bad(_demand("requires heating shelter wind screen"), base="procedure", at="heating"),),
    edges=(
        Edge(
            _demand("requires heating insulation layers at least {}"),
            keeps="2",
            breaks="3",
            at="2",
            base="procedure",
            says="at least 3 … is 2 … at least 3",
        ),
    ),
    good=(
        Good(_demand("requires heating ends closed and vented"), base="procedure"),
        Good(
            _demand("requires thermocouples gauge at least 20 when outside_diameter > 100 mm"),
            base="procedure",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    tell(RULE, case, "requires", "not met")
