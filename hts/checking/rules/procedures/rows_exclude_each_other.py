"""The rows of a procedure leave a value that meets them all."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain
from hts.checking.rules.helpers.rows import by_quantity, own_procedures, place
from hts.checking.rules.procedures.rows_not_compared import not_compared
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.vocabulary.procedure import Procedure
from hts.limits import Limit
from hts.syntax.formula import Fact

if TYPE_CHECKING:
    from hts.limits.clashes import Clash

#: Least of the first against greatest of the second; where unsaid, a quantity against itself.
_ORDERED = (("preheat", "interpass"),)

RULE = Rule(
    "R105",
    "rows-exclude-each-other",
    "error",
    summary="Rows of a procedure that no value can meet: a minimum above a maximum.",
    why="No job can follow such a procedure; somebody on site will choose which half to follow.",
    fix="Correct one of the rows, or give them conditions that never apply at once.",
    source=(
        "arithmetic, at the ends of the procedure's range, at every value its rows name and between "
        "them; for a file without a job: beside one, limits-cannot-be-met judges its joints"
    ),
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  excursion        at most 10 min in total",
                    "  excursion        at most 10 min in total\n"
                    "  bake temperature at least {} at most 300 degC",
                ),
            ),
            keeps="300 degC",
            breaks="301 degC",
            base="owner",
            says="at least 301 degC (573.8 degF) and at most 300 degC (572 degF)",
        ),
        Edge(
            (("  hold time        at most 6 h", "  hold time        at most {}"),),
            keeps="188 min",
            breaks="187 min",
            at="2.5 min/mm * t",
            base="owner",
            says="at least 187.5 min and at most 187 min … 75 mm (2.95 in)",
        ),
        Edge(
            (
                (
                    "  interpass        at most 350 degC",
                    "  interpass        at most 350 degC\n  preheat at least {} when p_number = 4",
                ),
            ),
            keeps="350 degC",
            breaks="351 degC",
            base="owner",
            says="at least 351 degC (663.8 degF) … at most 350 degC (662 degF) … 4",
        ),
    ),
    good=(
        Good(
            (
                (
                    "  excursion        at most 10 min in total",
                    "  excursion        at most 10 min in total\n"
                    "  hold temperature at most 650 degC when p_number = 1\n"
                    "  hold temperature at least 690 degC when p_number = 5A",
                ),
            ),
            base="owner",
        ),
        # From 24 h / 2.5 min/mm, which is 576 mm: far beyond the walls it applies to.
        Good((("  hold time        at most 6 h", "  hold time  at most 24 h"),), base="owner"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    # Beside a job its joints are judged, each with its own thickness: limits-cannot-be-met.
    if case.spec.file.job is not None:
        return
    for procedure in own_procedures(case):
        # Imported here, for most files hold no procedure.
        from hts.limits.clashes import clashes

        within = domain(procedure)
        rows = by_quantity(procedure)
        for lows, highs in _pairs(rows):
            for found in clashes(lows, highs, within, not_compared(case, procedure)):
                _tell(case, procedure, found)


def _pairs(rows: dict[str, list[Limit]]) -> Iterator[tuple[list[Limit], list[Limit]]]:
    """Rows with a least value, with those whose greatest values it has to keep to."""
    for one, other in (*((quantity, quantity) for quantity in rows), *_ORDERED):
        lows = [low for low in rows.get(one, ()) if low.minimum is not None]
        highs = [high for high in rows.get(other, ()) if high.maximum is not None]
        if lows and highs:
            yield lows, highs


def _tell(case: Case, procedure: Procedure, found: Clash) -> None:
    low, high = found.low, found.high
    bound_words = f"at least {_shown(found.least)}"
    other = f"{high.quantity} " if high.quantity != low.quantity else ""
    case.add(
        RULE.found(
            f"{low.quantity} {bound_words} and {other}at most {_shown(found.greatest)} exclude each "
            f"other{_where(found)}",
            place(procedure, low, "minimum"),
            address=procedure.name,
            others=[Label(place(procedure, high, "maximum"), "the greatest value")],
            notes=_from(found),
        )
    )


def _where(found: Clash) -> str:
    case_words = [f"{name} {_shown(value)}" for name, value in found.case.items()]
    return f", as at {', '.join(case_words)}" if case_words else ""


def _from(found: Clash) -> list[str]:
    if found.begins is None:
        return []
    begins = found.begins
    text = begins.show(places=1) if isinstance(begins, Quantity) else f"{float(begins):.1f}"
    return [f"they do where {found.fact} {'>' if found.rising else '<'} {text}"]


def _shown(value: Fact) -> str:
    return value.both() if isinstance(value, Quantity) else str(value)
