"""Whether a procedure is for a joint, and if not, the clause that says so."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.base.text import Span
from hts.checking.govern.joint import JointLimits
from hts.checking.govern.procedures import clauses
from hts.language.vocabulary.procedure import Procedure
from hts.syntax.formula import CONDITION, Fact, Formula, FormulaError, UnknownFact, one_of


class Refusal(NamedTuple):
    """A clause of a procedure that a side of a joint does not meet, and what that side is."""

    clause: str
    at: Span
    is_: str


def applies(procedure: Procedure, limits: JointLimits) -> bool:
    """Whether a procedure is for this joint on any of its sides, as far as is known."""
    return any(
        all(_met(words, condition, facts) for words, condition, _, _ in clauses(procedure))
        for facts in known(limits).values()
    )


def applying(procedure: Procedure, sides: Sequence[Mapping[str, Fact]]) -> bool | None:
    """The same for the facts of each side; None where missing facts leave it open."""
    met = [
        [_met(words, condition, facts) for words, condition, _, _ in clauses(procedure)]
        for facts in sides
    ]
    if any(all(side) for side in met):
        return True
    return None if any(False not in side for side in met) else False


def refusals(procedure: Procedure, limits: JointLimits) -> dict[str, list[Refusal]]:
    """For each side of the joint the clauses it is known not to meet."""
    return {side: list(_refused(procedure, facts)) for side, facts in known(limits).items()}


def _refused(procedure: Procedure, facts: dict[str, Fact]) -> Iterator[Refusal]:
    for words, condition, at, names in clauses(procedure):
        if _met(words, condition, facts) is False:
            values = [f"{_said(name)} is {_shown(facts[name])}" for name in names if name in facts]
            yield Refusal(at.text.strip(), at, " and ".join(values))


def _met(
    words: dict[str, tuple[str, ...]], condition: str, facts: Mapping[str, Fact]
) -> bool | None:
    """None where facts are missing that decide it."""
    for name, each in words.items():
        if name not in facts:
            return None
        if not one_of(facts[name], each):
            return False
    return holds(condition, facts) if condition else True


def holds(condition: str, facts: Mapping[str, Fact]) -> bool | None:
    """Whether a condition holds; None where facts are missing that decide it."""
    try:
        return bool(Formula.parse(condition, CONDITION).holds(facts))
    except (UnknownFact, FormulaError):
        return None


def known(limits: JointLimits) -> dict[str, dict[str, Fact]]:
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
    return {side: {**derived, **facts} for side, facts in limits.facts.items()}


def _said(name: str) -> str:
    return {"p_number": "P-number", "weld_kind": "kind of weld", "thicker_wall": "wall"}.get(
        name, name.replace("_", " ")
    )


def _shown(fact: Fact) -> str:
    return fact.both() if isinstance(fact, Quantity) else str(fact).replace("-", " ")
