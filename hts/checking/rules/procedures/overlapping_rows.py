"""Alternatives do not hold at the same time."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hts.base.findings import Label
from hts.base.quantities import Dimension
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain
from hts.checking.rules.helpers.rows import asked_for, grouped, own_procedures, place
from hts.checking.rules.procedures.rows_not_compared import not_compared
from hts.checking.rules.rule import Bad, Good, Rule
from hts.limits import FACTS

if TYPE_CHECKING:
    from hts.limits.alternatives import Overlap

_ROW = "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm"

RULE = Rule(
    "R103",
    "overlapping-rows",
    "warning",
    summary="Two rows of a procedure that apply at once and limit one quantity to different "
    "values.",
    why="The stricter one counts, but whoever reads the other works to the wrong figure.",
    fix="Let one condition end where the other begins: `t <= 60 mm` and `t > 60 mm`.",
    source=(
        "arithmetic: two rows whose conditions are about the same facts and hold together in part; "
        "where one is a base, or is for part of the other's cases, it is a tightening and no "
        "overlap"
    ),
    basis="derived",
    bad=(
        Bad(
            (
                (
                    _ROW,
                    f"{_ROW}\n  heating rate  at most 100 degC/h above 315 degC when t >= 60 mm",
                ),
            ),
            base="owner",
            at="t >= 60 mm",
            says="60 mm; at most 100 degC/h",
        ),
        Bad(
            (
                (
                    "  excursion        at most 10 min in total",
                    "  excursion at most 10 min in total when p_number in (1, 4)\n"
                    "  excursion at most 5 min in total when p_number in (4, 5A)",
                ),
            ),
            base="owner",
            at="p_number in (4, 5A)",
            says="is 4; at most 5 min",
        ),
    ),
    good=(
        # The smaller rate is for part of the other row's cases: a tightening.
        Good(
            (
                (
                    _ROW,
                    f"{_ROW}\n  heating rate at most 150 degC/h above 315 degC when t <= 30 mm",
                ),
            ),
            base="owner",
        ),
        # Both rows give 2 h at 50 mm.
        Good(
            (
                (
                    "  hold time        at least 2.5 min/mm * t",
                    "  hold time at least 2.4 min/mm * t when t <= 50 mm\n"
                    "  hold time at least 2 h + 0.6 min/mm * (t - 50 mm) when t >= 50 mm",
                ),
            ),
            base="owner",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        # Imported here, for most files hold no procedure.
        from hts.limits.alternatives import overlaps

        for quantity, direction, rows in grouped(procedure):
            untold = not_compared(case, procedure)
            for overlap in overlaps(rows, direction, domain(procedure), untold):
                first, second = sorted(
                    (overlap.strict, overlap.loose), key=lambda row: rows.index(row)
                )
                case.add(
                    RULE.found(
                        f"two rows of {procedure.name} limit the {quantity} where "
                        f"{_where(overlap)}; {asked_for(overlap.strict, direction)} counts there",
                        place(procedure, second, "when"),
                        address=procedure.name,
                        others=[Label(place(procedure, first, "when"), "the other row")],
                    )
                )


def _where(overlap: Overlap) -> str:
    from hts.limits.cells import range_text

    if isinstance(FACTS[overlap.fact].kind, Dimension):
        return range_text(overlap.fact, overlap.first, overlap.last)
    return f"{overlap.fact} is {overlap.first.value}"
