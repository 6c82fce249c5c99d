"""What procedures ask for beyond limits: monitors, spares, the recorder's interval."""

from __future__ import annotations

from typing import Any

from hts.checking.govern import Authority, JointLimits
from hts.checking.govern.case import Case
from hts.language.vocabulary.procedure import Procedure
from hts.syntax.formula import Fact, FormulaError, UnknownFact, one_of


def asked(case: Case, limits: JointLimits, field: str) -> list[tuple[Authority, Any]]:
    """The lines of a field (``monitors``, ``spares``) that apply to a joint, with their source.

    A line whose condition hangs on an unknown fact does not apply: the limits that hang on the
    same facts are reported as undecided.
    """
    found = []
    for authority in case.authorities:
        procedure = authority.procedure
        lines = getattr(procedure, field) if procedure is not None else ()
        if lines and procedure is not None and applies(procedure, limits):
            found += [
                (authority, line)
                for line in lines
                if getattr(line, "when", None) is None or _holds(line.when, limits)
            ]
    return found


def applies(procedure: Procedure, limits: JointLimits) -> bool:
    """Whether a procedure is for this joint on any of its sides."""
    from hts.checking.govern.procedures import conditions

    words, condition = conditions(procedure)
    return any(
        all(one_of(facts.get(name), each) for name, each in words.items())
        and (condition is None or _true(condition, facts))
        for facts in _facts(limits)
    )


def _holds(condition: Any, limits: JointLimits) -> bool:
    return any(_true(condition.text, facts) for facts in _facts(limits))


def _true(text: str, facts: dict[str, Fact]) -> bool:
    from hts.syntax.formula import CONDITION, Formula

    try:
        return bool(Formula.parse(text, CONDITION).holds(facts))
    except (UnknownFact, FormulaError):
        return False


def _facts(limits: JointLimits) -> list[dict[str, Fact]]:
    """The stated facts of each side and the widths and the thickness worked out from them."""
    derived: dict[str, Fact] = {}
    for name, value in (
        ("t", limits.thickness),
        ("soak_band", limits.band("soak band")),
        ("heated_band", limits.band("heated band")),
        ("zones", limits.zone_count()),
    ):
        if value is not None:
            derived[name] = value
    return [{**derived, **facts} for facts in limits.facts.values()]
