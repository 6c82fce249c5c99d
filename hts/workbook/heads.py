"""Headings with their units."""

from __future__ import annotations

from hts.outputs.show import Shown, sign
from hts.quantities import Dimension
from hts.workbook.book import Column


def heads(shown: Shown, label: str, dimension: Dimension) -> list[Column]:
    """One column for each unit on paper, the governing one first: `From, °C`."""
    return [Column(f"{label}, {sign(symbol)}") for symbol in shown.units.symbols(dimension)]
