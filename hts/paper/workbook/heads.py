"""Headings with their units, and the column of the marks of change."""

from __future__ import annotations

from hts.base.quantities import Dimension
from hts.job.compiler import Job
from hts.job.outputs.show import Shown, sign
from hts.paper.workbook.book import Column
from hts.paper.workbook.cells import Cell


def heads(shown: Shown, label: str, dimension: Dimension) -> list[Column]:
    """One column for each unit on paper, the governing one first: `From, °C`."""
    return [Column(f"{label}, {sign(symbol)}") for symbol in shown.units.symbols(dimension)]


def since(job: Job) -> list[Column]:
    """The column of the marks of change; none where nobody asked for them."""
    return [Column(f"Changed since {job.changes.since}")] if job.changes is not None else []


def mark(shown: Shown, joint: str, treatment: str, kind: str, name: str) -> list[Cell]:
    """The cell below it."""
    return [] if shown.changes is None else [shown.changed(joint, treatment, kind, name)]
