"""Demands on the document, with waivers told by either name of their rule."""

from __future__ import annotations

from hts.checking.govern import demanded
from hts.checking.govern.case import Case
from hts.checking.govern.demanded import Outcome
from hts.language.vocabulary.job import Waive


def of_job(case: Case) -> list[Outcome]:
    """Every demand on the document itself, once.

    A waiver names a rule by its code and the line that forbids it by its name, or the other way
    round: that is not met as well.
    """
    return [_by_the_other_name(case, outcome) for outcome in demanded.of_job(case)]


def _by_the_other_name(case: Case, outcome: Outcome) -> Outcome:
    if outcome.verb != "forbids" or outcome.verdict != "met":
        return outcome
    for test in outcome.what.tests:
        if outcome.what.targets[0].root is not Waive or test.field.name != "rule":
            continue
        meant = {_other_name(str(each)) for each in test.among}
        for waiver in case.spec.waivers:
            if waiver.sound and waiver.rule in meant:
                at = waiver.place("rule")
                why = f"that is {waiver.rule}, and it is waived"
                return outcome._replace(verdict="not met", where=(at,), at=at, why=why)
    return outcome


def _other_name(rule: str) -> str:
    """The name of the rule of a code, the code of one of a name; "" where there is no such rule."""
    from hts.checking.rules.catalogue import rules

    for each in rules():
        if rule in (each.kind.code, each.kind.name):
            return each.kind.name if rule == each.kind.code else each.kind.code
    return ""
