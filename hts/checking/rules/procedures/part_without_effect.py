"""Each part of a `min(…)` or `max(…)` counts for some weld."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.formulas import Written, written
from hts.checking.rules.helpers.rows import own_procedures, worked_out
from hts.checking.rules.procedures.implausible_limit import strange
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.vocabulary.limit_lines import LimitLine
from hts.syntax.formula import Formula, FormulaError, UnknownFact
from hts.syntax.formula.functions import Call
from hts.syntax.formula.nodes import Node

if TYPE_CHECKING:
    from hts.limits.worked import Weld

_LINE = "  holding spread   at most 25 K"

RULE = Rule(
    "R125",
    "part-without-effect",
    "warning",
    summary="A part of a `min(…)` or `max(…)` of a procedure that is far from counting for any wall "
    "and size it is for.",
    why="Whoever wrote it meant it to count: one of the figures is out by a digit or a unit.",
    fix="Check the figures of the parts; leave out the one that does nothing.",
    source="arithmetic: the parts worked out for typical metals, walls and pipe sizes; twice away "
    "from counting is far",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n"
                    "  soak band at least cap_width + 2 * max(25 mm, min(t, {})) total",
                ),
            ),
            keeps="13 mm",
            breaks="12 mm",
            at="min(t, 12 mm)",
            base="owner",
            says="min(t, 12 mm)",
        ),
    ),
    bad=(
        Bad(
            (
                (
                    "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm",
                    "  heating rate at most min(200 degC/h, 200 degC/h * 250 mm / t) above 315 degC",
                ),
            ),
            base="owner",
            at="200 degC/h * 250 mm / t",
            says="200 degC/h * 250 mm / t",
        ),
    ),
    good=(
        Good(
            ((_LINE, f"{_LINE}\n  bake time at least max(2 h, 5 min/mm * t)"),),
            base="owner",
        ),
        # Beyond 2 in, as the codes have it.
        Good(
            ((_LINE, f"{_LINE}\n  hold time at least 1 h + 15 min/in * max(0 in, t - 2 in)"),),
            base="owner",
        ),
    ),
)
_FAR = 2
_THICK = Quantity.of(100, "mm", LENGTH)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        lines = [
            line
            for line in written(procedure)
            if isinstance(line.line, LimitLine) and line.part in ("minimum", "maximum")
            if "min(" in line.formula.text or "max(" in line.formula.text
        ]
        if not lines:
            continue
        welds = _welds(case, procedure.name)
        if procedure.walls is None or procedure.walls.at_most is None:
            # `15 min/in * max(0 in, t - 2 in)`: who bounds no walls means thick ones, too.
            for those in welds.values():
                those += [_thick(weld) for weld in {weld.p_number: weld for weld in those}.values()]
        for line in lines:
            for node in _idle(line, welds.get((line.line.quantity, line.part), [])):  # type: ignore[attr-defined]
                source, start = line.place.source, line.formula.start
                text = line.formula.text
                offset = text.find("(") + 1 if text.startswith("2 * (") else 0
                case.add(
                    RULE.found(
                        f"{text[node.start : node.end]} never counts for any wall this is for",
                        source.span(start + node.start - offset, start + node.end - offset),
                        address=procedure.name,
                    )
                )


def _welds(case: Case, name: str) -> dict[tuple[str, str], list[Weld]]:
    """The typical welds of each quantity and direction of a procedure."""
    found: dict[tuple[str, str], list[Weld]] = {}
    for each in worked_out(case):
        if each.name == name:
            for column in each.columns:
                # What comes out implausible is told as that.
                if any(strange(column)):
                    continue
                key = column.quantity, column.direction
                found.setdefault(key, []).extend(weld for weld, _ in column.bounds)
    return found


def _thick(weld: Weld) -> Weld:
    """The same with the thickest wall that is usual."""
    from hts.limits.worked import THICKNESSES

    facts = weld.facts | dict.fromkeys(THICKNESSES, _THICK)
    return weld._replace(wall=_THICK.value, facts=facts)


def _idle(line: Written, welds: list[Weld]) -> Iterator[Node]:
    when = Formula.parse(line.when) if line.when else None
    held = [weld for weld in welds if when is None or _holds(when, weld)]
    # One weld shows nothing of a formula that hangs on the wall.
    if len({weld.wall for weld in held}) < 2:
        return
    for call in _calls(Formula.parse(line.formula.text).root):
        if call.function not in ("min", "max") or not call.names():
            continue
        values = [[_value(part, weld) for part in call.parts] for weld in held]
        if any(None in row for row in values):
            continue
        for number, part in enumerate(call.parts):
            if all(_far(row, number, call.function) for row in values):  # type: ignore[arg-type]
                yield part


def _far(row: list[Fraction], number: int, name: str) -> bool:
    others = [value for other, value in enumerate(row) if other != number]
    if not others:
        return False
    if name == "max":
        return row[number] * _FAR < max(others)
    return row[number] > min(others) * _FAR


def _calls(node: Node) -> Iterator[Call]:
    if isinstance(node, Call):
        yield node
    for part in node.parts:
        yield from _calls(part)


def _value(node: Node, weld: Weld) -> Fraction | None:
    try:
        return node.number(weld.facts)
    except (UnknownFact, FormulaError):
        return None


def _holds(when: Formula, weld: Weld) -> bool:
    try:
        return when.holds(weld.facts)
    except (UnknownFact, FormulaError):
        return False
