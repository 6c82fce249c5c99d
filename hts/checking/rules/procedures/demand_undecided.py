"""What a procedure demands can be held against what the job says."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.demanded import tell
from hts.checking.rules.rule import Bad, Good, Rule

_LINE = "  requires spare for controlling thermocouples"


def _demand(text: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f"  {text}\n{_LINE}"),)


RULE = Rule(
    "R114",
    "demand-undecided",
    "warning",
    summary="A demand of a procedure that nobody can decide: a fact is missing, or scales do not compare.",
    why="A demand that is neither met nor broken must not pass for one that is met.",
    fix="State the missing fact in the job.",
    source="the procedure that says so",
    basis="derived",
    bad=(
        Bad(
            _demand("requires heating bore drained and dry when filler_chromium > 2 %"),
            base="procedure",
            at="W12",
        ),
    ),
    good=(
        Good(
            _demand("requires heating bore drained and dry when chromium > 2 %"), base="procedure"
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    tell(RULE, case, "", "undecided")
