"""Larger pipe is given no fewer zones and thermocouples than smaller pipe."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import by_quantity, own_procedures, place
from hts.checking.rules.rule import Edge, Good, Rule
from hts.limits import Limit
from hts.syntax.formula import Fact

_COUNTED = ("zones", "thermocouples", "control thermocouples", "monitoring thermocouples")
#: Of one row by itself nothing can fall.
_ROWS = 2
_SIZES = ("nominal_size", "outside_diameter")
_LINE = "  holding spread   at most 25 K"
_ZONES = (
    f"{_LINE}\n  zones at least {{}} when nominal_size >= 14 and nominal_size < 20\n"
    "  zones at least 3 when nominal_size >= 20"
)

RULE = Rule(
    "R130",
    "fewer-for-larger",
    "warning",
    summary="A procedure that asks for fewer zones or thermocouples where the pipe is larger.",
    why="The larger the pipe, the more of it a zone and a thermocouple answer for, and the colder its bottom "
    "stays: figures have been exchanged, or a condition is turned round.",
    fix="Check the figures and conditions of both rows; where it is meant, say so with `because` at the "
    "row for the larger pipe.",
    source="AWS D10.10 (from memory): control zones and thermocouples rise with the size of the pipe",
    basis="memory",
    edges=(
        Edge(
            ((_LINE, _ZONES),),
            keeps="3",
            breaks="4",
            at="zones",
            base="owner",
            says="asks for 3 zones of NPS 20, and for 4 of NPS 18",
        ),
    ),
    good=(
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  zones at least 4 when nominal_size >= 8 and nominal_size < 20\n  zones at least 3 "
                    'when nominal_size >= 20, because "The furnace takes them whole"',
                ),
            ),
            base="owner",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for quantity, rows in by_quantity(procedure).items():
            found = _fewer(rows) if quantity in _COUNTED else None
            if found is None:
                continue
            smaller, larger = found
            case.add(
                RULE.found(
                    f"{procedure.name} asks for {larger.least} {quantity} of NPS {larger.nps}, and for "
                    f"{smaller.least} of NPS {smaller.nps}",
                    place(procedure, larger.row),
                    address=procedure.name,
                    others=[Label(place(procedure, smaller.row), "the other row")],
                    basis=RULE.basis,
                )
            )


class _Governed(NamedTuple):
    """A size of pipe, how many are asked for, and the row that does."""

    nps: str
    least: Fraction
    row: Limit


def _fewer(rows: Sequence[Limit]) -> tuple[_Governed, _Governed] | None:
    """Two sizes next to each other of which more is asked for the smaller one. Rows that hang on
    other facts than the size are left aside."""
    from hts.limits.alternatives import value
    from hts.limits.demand import size
    from hts.limits.worked import applies
    from hts.science.tables.pipe import sizes

    about = [
        (row, size(count))
        for row in rows
        if row.minimum is not None
        and not row.where
        and (row.when is None or set(row.when.names) <= set(_SIZES))
        and (count := value(row.minimum, {})) is not None
    ]
    if len(about) < _ROWS:
        return None
    governed = []
    for nps, nominal, outside in sizes():
        facts: dict[str, Fact] = {"nominal_size": nominal, "outside_diameter": outside}
        held = [_Governed(nps, count, row) for row, count in about if applies(row, facts)]
        if held:
            governed.append(max(held, key=lambda each: each.least))
    for smaller, larger in pairwise(governed):
        if larger.least < smaller.least and not larger.row.source.note:
            return smaller, larger
    return None
