"""Tables of books side by side as text, Markdown and data."""

from __future__ import annotations

import textwrap
from typing import Any

from hts.job.explain.side_by_side import Cell, Comparison
from hts.limits import FACTS

MARK = "*"
LEGEND = (
    f"{MARK} nothing here is stricter. A figure of basis memory or practice was not seen in the "
    "standard: check it in your own copy."
)
_FIRST = 30
_LEAST = 22


def text(found: Comparison, width: int = 110) -> str:
    """One table; cells are wrapped so that lines keep to `width` where the books allow it."""
    room = max(_LEAST, (width - _FIRST) // len(found.books) - 2)
    lines = [f"{found.address}: what each book asks", ""]
    lines += _across(["", *found.books], room)
    lines.append("-" * (_FIRST + (room + 2) * len(found.books)))
    for line in found.lines:
        lines += _across([line.heading, *("\n".join(_said(cell)) for cell in line.cells)], room)
    lines += _notes(found)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def markdown(found: Comparison) -> str:
    """One table for a merge request or a note."""
    heads = ["demand", *found.books]
    lines = [f"### {_plain(found.address)}", "", _row(heads), _row(["---"] * len(heads))]
    for line in found.lines:
        cells = ["<br>".join(map(_plain, _said(cell))) for cell in line.cells]
        lines.append(_row([_plain(line.heading), *cells]))
    return "\n".join([*lines, *(_plain(note) for note in _notes(found))]) + "\n"


def as_json(found: Comparison) -> dict[str, Any]:
    return {
        "address": found.address,
        "books": list(found.books),
        "lines": [
            {
                "quantity": line.quantity,
                "demand": line.word or None,
                "cells": [
                    {
                        "value": cell.value or None,
                        "citation": cell.citation or None,
                        "basis": cell.basis or None,
                        "confidence": cell.confidence or None,
                        "side": cell.side or None,
                        "undecided": list(cell.undecided),
                        "governs": cell.governs,
                    }
                    for cell in line.cells
                ],
            }
            for line in found.lines
        ],
        "exclusive": list(found.exclusive),
    }


def _said(cell: Cell) -> list[str]:
    found = []
    if cell.value:
        side = f" ({cell.side})" if cell.side else ""
        found.append(f"{MARK if cell.governs else ' '} {cell.value}{side}")
        found.append(f"  {cell.citation}; {cell.basis}, {cell.confidence}")
    if cell.undecided:
        found.append(f"  undecided: needs {', '.join(map(_called, cell.undecided))}")
    return found or ["  –"]


def _called(fact: str) -> str:
    """A fact by what it is called on the job."""
    known = FACTS.get(fact)
    return (known.stated[0] or known.meaning) if known is not None else fact


def _across(cells: list[str], room: int) -> list[str]:
    """The lines of one row of the table."""
    columns = []
    for number, cell in enumerate(cells):
        width = room if number else _FIRST - 2
        wrapped = [
            piece
            for line in cell.split("\n")
            for piece in (textwrap.wrap(line, width, subsequent_indent="  ") or [""])
        ]
        columns.append([f"{piece:<{width + 2}}" for piece in wrapped])
    height = max(map(len, columns))
    for number, column in enumerate(columns):
        blank = " " * ((room if number else _FIRST - 2) + 2)
        column += [blank] * (height - len(column))
    return ["".join(pieces) for pieces in zip(*columns, strict=True)]


def _notes(found: Comparison) -> list[str]:
    notes = ["", LEGEND]
    for quantity in found.exclusive:
        notes.append(f"No value of the {quantity} meets all of these books.")
    return notes


def _row(cells: list[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _plain(text: str) -> str:
    """Text that Markdown leaves as it is."""
    return "".join(f"\\{sign}" if sign in "\\|*_<>`[]#" else sign for sign in text)
