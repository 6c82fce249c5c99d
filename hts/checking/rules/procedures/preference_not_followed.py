"""What a procedure prefers is in the job where nothing speaks against it."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.demanded import tell
from hts.checking.rules.rule import Edge, Good, Rule

_LINE = "  requires spare for controlling thermocouples"


def _demand(text: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f"  {text}\n{_LINE}"),)


RULE = Rule(
    "R113",
    "preference-not-followed",
    "advice",
    summary="An entry of a job differs from what a procedure prefers.",
    why="Whoever deviates from it should have seen it.",
    fix="Follow it, or leave it: nothing fails by it.",
    source="the procedure that says so",
    basis="derived",
    edges=(
        Edge(
            _demand("prefers heating insulation layers at least {}"),
            keeps="2",
            breaks="3",
            at="2",
            base="procedure",
            says="at least 3 … is 2 … at least 3",
        ),
    ),
    good=(Good(_demand("prefers heating insulation layers at least 2"), base="procedure"),),
)


@RULE.for_spec
def check(case: Case) -> None:
    tell(RULE, case, "prefers", "not met")
