"""What guards a weld is asked of the steel that hardens more, not of the milder one alone."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain
from hts.checking.rules.helpers.good_ends import PROTECTS
from hts.checking.rules.helpers.metals_of_conditions import metals_of
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.procedure import Procedure
from hts.syntax.formula import CONDITION, Formula

_LINE = "  holding spread   at most 25 K"


def _with(*lines: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, "\n  ".join((_LINE, *lines))),)


RULE = Rule(
    "R143",
    "asked-of-milder-steel",
    "warning",
    summary="A safeguard, such as a bake, a spare, heat treatment or a short wait, that a procedure asks for where the steel is "
    "the mildest of those it is for, and not where it is one that hardens.",
    why="One P-number for another, or `=` for `!=`: the weld that the line was written for goes without.",
    fix="Correct the condition; where it is meant, say why with `because`.",
    source="common practice, no source: what hardens more is asked for more",
    basis="practice",
    bad=(
        Bad(
            _with("requires monitor weld count 1 when p_number = 1"),
            base="owner",
            at="p_number = 1",
            says="asks for `monitor weld count 1` of P-1, and not of P-5A",
        ),
        Bad(
            _with("requires bake when p_number != 5A and thicker_wall > 13 mm"),
            base="owner",
            at="p_number != 5A and thicker_wall > 13 mm",
            says="asks for `bake` of P-4, and not of P-5A",
        ),
        Bad(
            _with("post-weld heat treatment required when p_number = 1"),
            base="owner",
            at="p_number = 1",
            says="requires heat treatment of P-1, and not of P-5A",
        ),
        Bad(
            _with("temperature before heat treatment at most 95 degC when p_number = 4"),
            base="owner",
            at="p_number = 4",
            says="limits temperature before heat treatment of P-4, and not of P-5A",
        ),
    ),
    good=(
        Good(
            _with("post-weld heat treatment required when p_number = 1 and t > 9 mm"), base="owner"
        ),
        Good(_with("requires monitor weld count 1 when p_number = 5A"), base="owner"),
        Good(_with("requires monitor weld count 1 when p_number in (4, 5A)"), base="owner"),
        Good(
            _with('requires monitor weld count 1 when p_number = 1 because "The yard has seen it"'),
            base="owner",
        ),
        # Another line asks the others for it.
        Good(
            _with(
                "requires monitor weld count 1 when p_number = 1",
                "requires monitor weld count 2 when p_number in (4, 5A)",
            ),
            base="owner",
        ),
        # For carbon steel in sour service there is a limit of its own.
        Good(
            _with("requires after heat hardness weld at most 200 HBW when p_number = 1"),
            base="owner",
        ),
    ),
)

#: From the steel that hardens least to the one that hardens most.
_ORDER = ("1", "3", "4", "5A", "5B", "5C", "15E")
#: Safeguards besides those nobody forbids.
_MORE = (
    "joint.thermocouples.thermocouple.monitors",
    "joint.thermocouples.thermocouple.controls",
    "joint.thermocouples.thermocouple.within",
    "cycle.guard band.rule",
    "preheat.maintain at least",
    "bake.test after",
    "joint.qualified.hold",
)
#: Of hardness, tests and papers each steel has its own.
_OWN = (
    "joint.thermocouples.junction cover",
    "after heat.",
    "before heat.",
    "job.",
    "joint.drawing",
    "joint.line",
    "material.",
    "recorder.",
)
#: What is limited where the steel hardens.
_LIMITS = ("delay before heat treatment", "temperature before heat treatment")
_GUARDS = tuple(path for path in (*PROTECTS, *_MORE) if not path.startswith(_OWN))


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        metals = domain(procedure).words.get("p_number", ())
        scope = [metal for metal in _ORDER if metal in metals]
        for asked in _asked(procedure) if len(scope) > 1 else ():
            metals_asked = metals_of(asked.when.text, scope)
            left = [metal for metal in scope if metal not in metals_asked]
            if (
                not metals_asked
                or not left
                or _ORDER.index(left[-1]) < _ORDER.index(metals_asked[-1])
            ):
                continue
            if any(_covers(other, left[-1], scope) for other in asked.others):
                continue
            case.add(
                RULE.found(
                    f"{procedure.name} {asked.says} of P-{metals_asked[-1]}, and not of P-{left[-1]}",
                    asked.at,
                    address=procedure.name,
                    basis=RULE.basis,
                )
            )


class _Asked(NamedTuple):
    """A safeguard under a condition, where it stands, and the conditions of other lines that ask the
    same, None for none."""

    says: str
    when: FormulaText
    at: Span
    others: list[FormulaText | None]


def _asked(procedure: Procedure) -> Iterator[_Asked]:
    for line in procedure.requires:
        what, when = line.what, line.when
        if what is not None and when is not None and not line.note and what.paths & {*_GUARDS}:
            others = [
                other.when
                for other in procedure.requires
                if other is not line
                and other.what is not None
                # For all of them a line may ask for less.
                and (other.when is not None or other.what.text == what.text)
                and other.what.paths & what.paths
            ]
            yield _Asked(f"asks for `{what.text}`", when, line.place("when"), others)
    for limit in procedure.limits:
        if limit.quantity in _LIMITS and limit.when is not None and not limit.note:
            others = [
                other.when
                for other in procedure.limits
                if other is not limit and other.quantity == limit.quantity
            ]
            yield _Asked(f"limits {limit.quantity}", limit.when, limit.place("when"), others)
    for treatment in procedure.treatments:
        when = treatment.when
        if treatment.status != "required" or when is None or treatment.note:
            continue
        # Codes exempt thin welds, and services ask for it by themselves.
        if set(Formula.parse(when.text, CONDITION).names) == {"p_number"}:
            others = [
                other.when
                for other in procedure.treatments
                if other is not treatment and other.status == "required"
            ]
            yield _Asked("requires heat treatment", when, treatment.place("when"), others)
    for option in procedure.forbids:
        if option.option == "code exemption" and option.when is not None and not option.note:
            others = [
                other.when
                for other in procedure.forbids
                if other is not option and other.option == option.option
            ]
            yield _Asked("forbids code exemption", option.when, option.place("when"), others)


def _covers(condition: FormulaText | None, metal: str, scope: list[str]) -> bool:
    """Whether a line under a condition is for a metal."""
    return condition is None or metal in metals_of(condition.text, scope)
