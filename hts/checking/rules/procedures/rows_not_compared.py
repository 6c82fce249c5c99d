"""Rows are compared with each other in a time one waits for, or that they are not is told."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain, options, rows
from hts.checking.rules.helpers.rows import MOST, is_compared, own_procedures
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.procedure import Procedure
from hts.limits import Limit

_LINE = "  holding spread   at most 25 K"


def _pairs(count: int) -> str:
    """`(t != 1 mm or wall != 1 mm) and (...)`: each bracket doubles the cases."""
    return " and ".join(f"(t != {n} mm or wall != {n} mm)" for n in range(1, count + 1))


RULE = Rule(
    "R118",
    "rows-not-compared",
    "warning",
    summary="Rows of a procedure that are too many, or have conditions too long, to be held against "
    "each other.",
    why="Gaps, overlaps and rows without effect among them would go unseen: that nothing is found "
    "says nothing here.",
    fix="Write conditions that name ranges and words instead of long chains of `or`, or divide the "
    "procedure.",
    source="arithmetic: the cases a condition tells apart multiply with each `and` of an `or`",
    basis="derived",
    bad=(
        Bad(
            ((_LINE, f"{_LINE}\n  preheat at least 95 degC when {_pairs(7)}"),),
            base="owner",
            at="preheat",
        ),
    ),
    good=(
        Good(
            ((_LINE, f"{_LINE}\n  holding spread at most 20 K when {_pairs(2)}"),),
            base="owner",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        if not is_compared(procedure):
            _tell_of_all(case, procedure)
            continue
        if not any(row.when is not None and " or " in row.when.text for row in rows(procedure)):
            continue
        # Imported here, for few conditions are that long.
        from hts.limits.cells import Undecidable
        from hts.limits.regions import Regions

        for row in (*rows(procedure), *options(procedure)):
            try:
                too_much = Regions([row.when], domain(procedure)).too_much
            except Undecidable:
                continue
            if too_much:
                _tell(case, procedure, row, f"the condition of this row on {_about(row)}")


def _tell_of_all(case: Case, procedure: Procedure) -> None:
    count = len(rows(procedure))
    case.add(
        RULE.found(
            f"the {count} limits of {procedure.name} were not held against each other, nor against "
            f"its books: more than {MOST}",
            procedure.place("name"),
            address=procedure.name,
        )
    )


def not_compared(case: Case, procedure: Procedure) -> Callable[[Sequence[Limit]], None]:
    """What other rules call with rows that are too many to be held against each other."""

    def tell(group: Sequence[Limit]) -> None:
        row = group[0]
        if len(group) == 1:
            _tell(case, procedure, row, f"the condition of this row on {_about(row)}")
        else:
            _tell(case, procedure, row, f"some of {len(group)} rows on {_about(row)}")

    return tell


def _about(row: Limit) -> str:
    return f"the {row.quantity}"


def _tell(case: Case, procedure: Procedure, row: Limit, what: str) -> None:
    if row.source.at is None:
        return
    if any(
        finding.kind is RULE.kind
        and finding.at.span.source is row.source.at.source
        and finding.at.span.start == row.source.at.start
        for finding in case.report.findings
    ):
        return
    case.add(
        RULE.found(
            f"{what} in {procedure.name} was not held against the other rows: too many cases",
            row.source.at,
            address=procedure.name,
        )
    )
