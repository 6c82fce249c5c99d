"""Findings about the table of a weld list."""

from __future__ import annotations

from collections.abc import Iterable

from hts.base.findings import Finding, Kind, Label, Report
from hts.base.text import Source, Span
from hts.language.vocabulary.weld_list import WeldList
from hts.syntax.table import Cell


class Telling:
    """Tells what is wrong with one list: where it is told, the list is not sound."""

    def __init__(self, listed: WeldList, source: Source, report: Report) -> None:
        self.listed = listed
        self.source = source
        self.report = report

    def span(self, cell: Cell) -> Span:
        return self.source.span(cell.start, cell.end)

    def at_cell(
        self,
        kind: Kind,
        message: str,
        cell: Cell,
        help: str,
        address: str = "",
        others: Iterable[Label] = (),
    ) -> None:
        """``address``: the weld of the row; that of the list where it has none."""
        self.at(kind, message, self.span(cell), help, address, others)

    def at(
        self,
        kind: Kind,
        message: str,
        span: Span,
        help: str,
        address: str = "",
        others: Iterable[Label] = (),
    ) -> None:
        self.listed.sound = False
        self.report.add(
            Finding(
                kind,
                message,
                Label(span),
                address=address or self.listed.name,
                others=others,
                help=help,
            )
        )
