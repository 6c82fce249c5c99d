"""Every limit and width, with formula, numbers, source and basis."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import Quantity
from hts.base.quantities.number import short_text
from hts.job.compiler import Job
from hts.job.compiler.derivations import Derivation
from hts.job.compiler.why import Why
from hts.job.outputs.show import DOWN, NEAREST, UP, Shown, number, sign
from hts.paper.workbook.book import Book, Column
from hts.paper.workbook.cells import EMPTY, Cell, as_figure

_TOWARD = {"minimum": UP, "maximum": DOWN}

_COLUMNS = (
    Column("Joint"),
    Column("For"),
    Column("Quantity", 24),
    Column("Bound"),
    Column("Value"),
    Column("Unit"),
    Column("Where", 18),
    Column("Formula", 34),
    Column("Numbers put in", 34),
    Column("Source"),
    Column("Edition"),
    Column("Paragraph", 30),
    Column("Basis"),
    Column("Confidence"),
    Column("Note", 40),
)


def derivations(book: Book, job: Job) -> None:
    """The appendix an inspector asks for."""
    shown = Shown(job.units, job.changes)
    rows: list[list[Cell]] = []
    for sheet in job.joints:
        joint = sheet.joint.name
        for band in sheet.bands:
            for bound, value in (("total", band.total), ("each side", band.each)):
                if value is not None:
                    where = f"from {band.datum}"
                    rows.append(
                        _row(shown, joint, "joint", band.name, bound, value, where, band.why)
                    )
        rows += [_derived(shown, joint, "joint", derivation) for derivation in sheet.derived]
        for run in sheet.runs:
            name = run.program.name
            rows += [_derived(shown, joint, name, derivation) for derivation in run.program.derived]
    book.table(
        "Derivations",
        "Derivations",
        _COLUMNS,
        rows,
        ("Values in the governing units; a least value rounded up, a greatest down.",),
        keys=4,
    )


def _derived(shown: Shown, joint: str, subject: str, derivation: Derivation) -> list[Cell]:
    where = [
        f"above {shown.text(derivation.above, DOWN)}" if derivation.above is not None else EMPTY,
        f"within {shown.text(derivation.within, UP)}" if derivation.within is not None else EMPTY,
        f"at {', '.join(derivation.places)}" if derivation.places else EMPTY,
        f"side {derivation.side}" if derivation.side else EMPTY,
    ]
    return _row(
        shown,
        joint,
        subject,
        derivation.quantity,
        derivation.direction,
        derivation.value,
        "; ".join(part for part in where if part),
        derivation.why,
    )


def _row(
    shown: Shown,
    joint: str,
    subject: str,
    quantity: str,
    bound: str,
    value: object,
    where: str,
    why: Why,
) -> list[Cell]:
    cell, unit = _value(shown, value, _TOWARD.get(bound, UP if bound == "total" else NEAREST))
    return [
        joint,
        subject,
        quantity,
        bound,
        cell,
        unit,
        where,
        why.formula,
        why.numbers,
        why.source,
        why.edition,
        why.citation,
        why.basis,
        why.confidence,
        why.note,
    ]


def _value(shown: Shown, value: object, toward: str) -> tuple[Cell, str]:
    if isinstance(value, Quantity):
        symbol = shown.units.first(value.dimension)
        if value.unit.partner is None:  # a hardness, a voltage: the same in every system
            symbol = value.unit.symbol
        return as_figure(number(value, symbol, toward)), sign(symbol)
    text = short_text(value, 4) if isinstance(value, Fraction) else str(value)
    return as_figure(text), EMPTY
