"""Each part of a `min(…)` or `max(…)` counts for some weld."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from hts.base.quantities import LENGTH, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import WorkedOut, own_procedures, worked_out
from hts.checking.rules.procedures.implausible_limit import strange
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.syntax.formula import Formula, FormulaError, UnknownFact
from hts.syntax.formula.functions import Call
from hts.syntax.formula.nodes import Node

if TYPE_CHECKING:
    from hts.limits import Limit
    from hts.limits.worked import Weld

_LINE = "  holding spread   at most 25 K"

RULE = Rule(
    "R125",
    "part-without-effect",
    "warning",
    summary="A part of a `min(…)` or `max(…)` of a procedure, or of a rule book of one's own, that is far from "
    "counting for any wall and size it is for.",
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
_BOTH = "2 * ("
_THICK = Quantity.of(100, "mm", LENGTH)


@RULE.for_spec
def check(case: Case) -> None:
    unbounded = {
        procedure.name
        for procedure in own_procedures(case)
        if procedure.walls is None or procedure.walls.at_most is None
    } | {book.file.id for book in case.spec.books}
    told: set[tuple[int, str]] = set()
    for found in worked_out(case):
        welds = _welds(found)
        if found.name in unbounded:
            # `15 min/in * max(0 in, t - 2 in)`: who bounds no walls means thick ones, too.
            for those in welds.values():
                those += [_thick(weld) for weld in {weld.p_number: weld for weld in those}.values()]
        for row, part in dict.fromkeys(
            (row, column.direction) for column in found.columns for row in column.rows
        ):
            formula = getattr(row, part)
            idle = list(_idle(formula, row.when, welds.get((row.quantity, part), [])))
            if not idle:
                continue
            # A figure beside a part that hangs on the weld does nothing only because that does not.
            node = next((node for node in idle if node.names()), idle[0])
            text = formula.text[node.start : node.end]
            at = found.place(row, part)
            # Editions of a book share rows.
            if (at.start, text) not in told:
                told.add((at.start, text))
                case.add(
                    RULE.found(
                        f"{text} never counts for any wall this is for",
                        _within(at, row, formula, node),
                        address=found.name,
                    )
                )


def _within(at: Span, row: Limit, formula: Formula, node: Node) -> Span:
    """The part of a formula; where a row of a book stands is known by its name alone."""
    if row.source.at is None:
        return at
    # `2 * (…)` stands for what is written of each side.
    start = at.start - (len(_BOTH) if formula.text.startswith(_BOTH) else 0)
    return at.source.span(start + node.start, start + node.end)


def _welds(found: WorkedOut) -> dict[tuple[str, str], list[Weld]]:
    """The typical welds of each quantity and direction."""
    welds: dict[tuple[str, str], list[Weld]] = {}
    for column in found.columns:
        # What comes out implausible is told as that.
        if not any(strange(column)):
            key = column.quantity, column.direction
            welds.setdefault(key, []).extend(weld for weld, _ in column.bounds)
    return welds


def _thick(weld: Weld) -> Weld:
    """The same with the thickest wall that is usual."""
    from hts.limits.worked import THICKNESSES

    facts = weld.facts | dict.fromkeys(THICKNESSES, _THICK)
    return weld._replace(wall=_THICK.value, facts=facts)


def _idle(formula: Formula, when: Formula | None, welds: list[Weld]) -> Iterator[Node]:
    calls = [call for call in _calls(formula.root) if call.function in ("min", "max")]
    if not calls:
        return
    held = [weld for weld in welds if when is None or _holds(when, weld)]
    # One weld shows nothing of a formula that hangs on the wall.
    if len({weld.wall for weld in held}) < 2:
        return
    for call in calls:
        if not call.names():
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
