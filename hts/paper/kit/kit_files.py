"""The kit list as paper, as CSV and as a workbook."""

from __future__ import annotations

import csv
import io
from fractions import Fraction
from math import ceil
from typing import Any

from hts.job.compiler import Job
from hts.job.outputs import identity
from hts.job.outputs.show import Shown
from hts.job.outputs.text import csv_text
from hts.paper.kit.kit_rows import Line, kit_rows
from hts.paper.packet import letters
from hts.paper.packet.cover import CODE, title
from hts.paper.packet.frame import Frame
from hts.paper.packet.groups import Subject
from hts.paper.packet.heads import heads
from hts.paper.packet.packet_files import TEMPLATE
from hts.paper.packet.pages import BOX, Pages
from hts.paper.sheet import A4, Size
from hts.paper.sheet.typeset import pdf
from hts.paper.workbook.book import Book, Column
from hts.paper.workbook.cells import Cell, Fill, as_figure

_HEADS = ("For", "What", "In all", "At once", "Unit", "How counted", "Basis")
_TOLD = (
    "In all: for every joint as if each had its own. At once: for the joints that are heated "
    "together, where these need most; the rest can be used again. Counts that rest on common "
    "practice are to be checked by whoever loads."
)


def files(job: Job, size: Size = A4) -> dict[str, bytes]:
    """Name -> bytes. Raises MissingPackage."""
    lines = kit_rows(job)
    return {
        "kit.pdf": pdf(TEMPLATE, _pages(job, lines, size)),
        "kit.csv": _csv(job, lines).encode("utf-8"),
        "kit.xlsx": _workbook(job, lines, size),
    }


def _cells(line: Line) -> tuple[str, ...]:
    numbers = (_number(line.total, line.unit), _number(line.at_once, line.unit))
    return (line.group, line.item, *numbers, line.unit, line.how, line.basis)


def _is_loaded(line: Line) -> bool:
    """Whether it is put on the truck; a demand for power is only provided for."""
    return line.unit != "kW"


def _number(count: Fraction, unit: str) -> str:
    """Pieces are whole and metres rounded up; areas and powers to a tenth, up."""
    if unit in ("m²", "kW"):
        return f"{ceil(count * 10) / 10:.1f}"
    return str(ceil(count))


def _csv(job: Job, lines: list[Line]) -> str:
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow([*(head.lower() for head in _HEADS), *identity.COLUMNS])
    for line in lines:
        row = (*_cells(line), *identity.cells(job.document))
        writer.writerow([csv_text(cell) for cell in row])
    return text.getvalue()


def _workbook(job: Job, lines: list[Line], size: Size) -> bytes:
    book = Book(job, size)
    columns = (
        Column("For"),
        Column("What", 56),
        Column("In all"),
        Column("At once"),
        Column("Unit"),
        Column("Loaded"),
        Column("How counted", 44),
        Column("Basis"),
    )
    rows: list[list[Cell]] = [
        [
            line.group,
            line.item,
            as_figure(_number(line.total, line.unit)),
            as_figure(_number(line.at_once, line.unit)),
            line.unit,
            Fill() if _is_loaded(line) else "",
            line.how,
            line.basis,
        ]
        for line in lines
    ]
    book.table("Kit", "What to load", columns, rows)
    return book.data()


def _pages(job: Job, lines: list[Line], size: Size) -> dict[str, Any]:
    frame = Frame(size)
    subject = Subject(job, job.joints, Shown(job.units), "kit")
    page = Pages(frame)
    page.line(_TOLD)
    page.form(
        ("For", "What", "In all", "At once", "Unit", "Loaded", "How counted"),
        [
            (
                *_cells(line)[:5],
                BOX if _is_loaded(line) else "",
                line.how + letters.mark_of(line.basis),
            )
            for line in lines
        ],
        (20, 62, 14, 15, 13, 13, 44),
        height=6.0,
        dense=True,
    )
    if not lines:
        page.line("The specification names nothing to load.")
    room = frame.room(across=False)
    return {
        "frame": frame.data(),
        "name": "kit list",
        "short_name": "Kit list",
        "document": heads(job.document, room, beside=CODE),
        **title(subject, frame),
        "groups": [
            {
                "name": "kit list",
                "title": "WHAT TO LOAD",
                "contents": False,
                "front": [],
                "parts": page.parts,
            }
        ],
    }
