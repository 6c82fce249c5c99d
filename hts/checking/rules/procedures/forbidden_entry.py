"""What a procedure forbids is not in the job."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.govern.demanded import of_job
from hts.checking.rules.helpers.demanded import tell
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.job import Waive

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
    _by_the_other_name(case)


def _by_the_other_name(case: Case) -> None:
    """A waiver names a rule by its code, the line that forbids it by its name, or the other way."""
    for outcome in of_job(case):
        if outcome.verb != "forbids" or outcome.verdict != "met":
            continue
        for test in outcome.what.tests:
            if outcome.what.targets[0].root is not Waive or test.field.name != "rule":
                continue
            meant = {_other_name(str(each)) for each in test.among}
            for waiver in case.spec.waivers:
                if waiver.sound and waiver.rule in meant:
                    case.add(
                        RULE.found(
                            f"{outcome.authority.name} forbids `{outcome.what.text}`: that is "
                            f"{waiver.rule}",
                            waiver.place("rule"),
                            address=outcome.address,
                            others=[Label(outcome.line.place(), "forbidden here")],
                        )
                    )


def _other_name(rule: str) -> str:
    """The name of the rule of a code, the code of one of a name; "" where there is no such rule."""
    from hts.checking.rules.catalogue import rules

    for each in rules():
        if rule in (each.kind.code, each.kind.name):
            return each.kind.name if rule == each.kind.code else each.kind.code
    return ""
