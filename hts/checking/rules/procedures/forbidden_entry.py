"""What a procedure forbids is not in the job."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.demanded import tell
from hts.checking.rules.rule import Bad, Good, Rule

_LINE = "  requires spare for controlling thermocouples"
_PROCEDURE = 'procedure P-07 "Local heat treatment of piping welds" {'
_WAIVER = (
    "waive legs-attached-together on W12/thermocouples {\n"
    '  reason "Spot welder for pairs only"\n  by "Owner\'s engineer"\n  until 2027-01-31\n}\n\n'
)


def _demand(text: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f"  {text}\n{_LINE}"),)


RULE = Rule(
    "R112",
    "forbidden-entry",
    "error",
    summary="An entry of a job that a procedure forbids.",
    why="The owner does not accept work that is done so.",
    fix="Take it out of the job, or ask the owner to allow it.",
    source="the procedure that says so",
    basis="derived",
    bad=(
        Bad(
            _demand("forbids thermocouples attached capacitor discharge"),
            base="procedure",
            at="attached",
        ),
        Bad(
            (
                *_demand("forbids waive C115"),
                ("each leg apart", ""),
                (_PROCEDURE, _WAIVER + _PROCEDURE),
            ),
            base="procedure",
            at="legs-attached-together",
        ),
    ),
    good=(
        Good(_demand("forbids thermocouples attached contact"), base="procedure"),
        Good(
            _demand(
                "forbids thermocouples attached capacitor discharge\n"
                "  allows thermocouples attached energy at most 125 J"
            ),
            base="procedure",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    tell(RULE, case, "forbids", "not met")
