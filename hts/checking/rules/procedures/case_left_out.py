"""Rows that tell cases apart leave none of them out."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain
from hts.checking.rules.helpers.rows import grouped, own_procedures, place
from hts.checking.rules.procedures.rows_not_compared import not_compared
from hts.checking.rules.rule import Bad, Good, Rule

_LINE = "  holding spread   at most 25 K"
_ROWS = (
    "  preheat at least 95 degC when axis = horizontal\n"
    "  preheat at least 120 degC when axis = vertical"
)

RULE = Rule(
    "R102",
    "case-left-out",
    "advice",
    summary="Rows of a procedure that limit a quantity in every case but one.",
    why="The case left out is often one nobody thought of, and it is not limited at all.",
    fix="Add a row for the case, or a row without a condition for all.",
    source="arithmetic: the words of the fact or, for hold and rates, those the procedure is for",
    basis="derived",
    bad=(Bad(((_LINE, f"{_LINE}\n{_ROWS}"),), base="owner", at="axis"),),
    good=(
        Good(((_LINE, f"{_LINE}\n{_ROWS}\n  preheat at least 80 degC"),), base="owner"),
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  preheat at least 120 degC when p_number = 4\n"
                    "  preheat at least 150 degC when p_number = 5A and thicker_wall > 10 mm",
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
        from hts.limits.alternatives import left_out

        for quantity, _, rows in grouped(procedure):
            for left in left_out(rows, domain(procedure), not_compared(case, procedure)):
                first, *others = left.rows
                case.add(
                    RULE.found(
                        f"{procedure.name} does not limit the {quantity} for {left.fact} {left.word}",
                        place(procedure, first, "when"),
                        address=procedure.name,
                        others=[Label(place(procedure, row, "when")) for row in others],
                    )
                )
