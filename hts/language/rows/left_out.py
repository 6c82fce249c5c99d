"""Rows of a weld list that do not count although welds like them, no thicker, do."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from hts.base.findings import Finding, Label
from hts.base.quantities.number import NumberError, read_number
from hts.language.rows.columns import Layout
from hts.language.rows.heads import WALL, Meaning, leads_there
from hts.language.rows.telling import Telling
from hts.language.rows.which_rows import Numbered, Row
from hts.language.vocabulary.table_mistakes import LEFT_OUT_ALIKE
from hts.syntax.table import Cell

_WALL = Meaning(WALL, frozenset({"wall"}))


def left_out_alike(
    layout: Layout, counted: list[Numbered], left_out: list[Row], telling: Telling
) -> Iterator[Finding]:
    """Tells rows that `only` leaves out, with the typical joint of rows that count and a wall no
    thinner than theirs. One with a word in a column that is not read is meant to be left out, but
    for a word that stands at rows that count as well."""
    wall = next((each for each in layout.columns if leads_there(each.lead, _WALL)), None)
    if layout.typical is None or layout.only is None or wall is None:
        return
    read = {layout.key, layout.typical, layout.only, *(each.place for each in layout.columns)}
    thinnest: dict[str, tuple[Fraction, Cell]] = {}
    for _, row in counted:
        thick, name = _number(row[wall.place]), row[layout.typical].text
        if thick is not None and (name not in thinnest or thick < thinnest[name][0]):
            thinnest[name] = thick, row[layout.key]
    everyday = {
        (place, cell.text)
        for _, row in counted
        for place, cell in enumerate(row)
        if place not in read
    }
    for row in left_out:
        thick, name = _number(row[wall.place]), row[layout.typical].text
        if thick is None or name not in thinnest or thick < thinnest[name][0]:
            continue
        remarks = {(place, cell.text) for place, cell in enumerate(row) if place not in read}
        if any(text for _, text in remarks - everyday):
            continue
        key, (_, other) = row[layout.key].text, thinnest[name]
        yield Finding(
            LEFT_OUT_ALIKE,
            f"{key} does not count, and {other.text} does, which is like {name}, too, "
            "and no thicker",
            Label(telling.span(row[layout.only])),
            address=key or telling.listed.name,
            others=[Label(telling.span(other), "counts")],
            help="let it count, or say in a column that is not read why it does not",
        )


def _number(cell: Cell) -> Fraction | None:
    try:
        return read_number(cell.text.replace(",", "."))
    except (NumberError, ZeroDivisionError):
        return None
