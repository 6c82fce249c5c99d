"""The conditions of alternatives leave nothing between them."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain
from hts.checking.rules.helpers.rows import grouped, own_procedures, place
from hts.checking.rules.procedures.rows_not_compared import not_compared
from hts.checking.rules.rule import Bad, Edge, Good, Rule

_ROW = "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm"

RULE = Rule(
    "R101",
    "gap-between-rows",
    "warning",
    summary="Two rows of a procedure on one quantity that leave a gap of values no row limits.",
    why="A joint in the gap is heat treated without that limit, and nobody notices.",
    fix="Let one condition begin where the other ends: `t <= 60 mm` and `t > 60 mm`.",
    source=(
        "arithmetic: two rows whose conditions are about the same facts, all other facts held "
        "equal, and values of one number between them that no row covers; a row without a "
        "condition covers all"
    ),
    basis="derived",
    bad=(
        Bad(
            (
                (
                    _ROW,
                    _ROW.replace("<=", "<")
                    + "\n  heating rate  at most 100 degC/h above 315 degC when t > 60 mm",
                ),
            ),
            base="owner",
            at="t > 60 mm",
            says="60 mm",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm",
                    "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm\n  heating rate  at most 100 degC/h above 315 degC when t > {}",
                ),
            ),
            keeps="75 mm",
            breaks="74 mm",
            base="owner",
            says="60 mm … 74 mm",
        ),
    ),
    good=(
        Good(
            (
                (
                    _ROW,
                    f"{_ROW}\n  heating rate  at most 100 degC/h above 315 degC when t > 60 mm",
                ),
            ),
            base="owner",
        ),
        Good(
            (
                (
                    _ROW,
                    "  heating rate at most 200 degC/h above 315 degC\n"
                    "  heating rate at most 150 degC/h above 315 degC when t > 40 mm and t <= 50 mm\n"
                    "  heating rate at most 100 degC/h above 315 degC when t > 60 mm",
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
        from hts.limits.cells import range_text
        from hts.limits.gaps import gaps

        for quantity, direction, rows in grouped(procedure):
            for gap in gaps(rows, direction, domain(procedure), not_compared(case, procedure)):
                where = range_text(gap.fact, gap.first, gap.last)
                case.add(
                    RULE.found(
                        f"{procedure.name} does not limit the {quantity} where {where}",
                        place(procedure, gap.above, "when"),
                        address=procedure.name,
                        others=[Label(place(procedure, gap.below, "when"), "the other row")],
                    )
                )
