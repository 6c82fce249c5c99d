"""Pages in the making: blocks for the templates, in the order they are printed.

All texts given are plain; the templates get them as data, and print them letter by letter.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import zip_longest
from math import ceil
from typing import Any

from hts.paper.packet import letters, tables
from hts.paper.packet.frame import Frame

Block = dict[str, Any]
_BODY = 9.0
#: Room for the names of facts, mm, and the most of a narrow column.
_LABEL, _NAMED = 36.0, 0.34
#: Letters of a form, points.
_FORM, _DENSE = 8.0, 7.4
#: A list that is longer is set in columns.
_FEW = 5
#: Heights for an estimate, mm: a heading, a line of text, the room after a block.
_HEADING, _LEADING, _GAP = 7.5, 4.3, 2.6
#: What is printed is about so much of what is estimated, which errs on the long side.
ROUGHLY = 0.85
#: So few short rows are kept on one page, with the heading above them.
_TOGETHER = 5
#: Letters of a table that is not short, however few its rows.
_LONG = 900
#: What a line before it leads to.
_LED = ("table", "form", "bullets", "facts")


class Pages:
    """What is printed. Sheets of `hts.job.outputs` write themselves onto it as onto Markdown."""

    def __init__(self, frame: Frame, room: float | None = None) -> None:
        """`room` is the width of a column beside something else; else a page has all of it."""
        self.frame = frame
        self._room = room
        self.parts: list[dict[str, Any]] = [{"across": False, "blocks": []}]
        #: mm, about what all of it takes in a column.
        self.height = 0.0

    @property
    def blocks(self) -> list[Block]:
        """The blocks of a single part."""
        return list(self.parts[0]["blocks"])

    # Sections -----------------------------------------------------------------------------------

    @property
    def room(self) -> float:
        """Width between the margins, mm."""
        return self._room or self.frame.room(self.parts[-1]["across"])

    @property
    def depth(self) -> float:
        """Height between the margins, mm."""
        return self.frame.depth(self.parts[-1]["across"])

    def section(self, title: str, across: bool = False, fresh: bool = False) -> None:
        """A numbered section; `across` has its sheets laid on their side, `fresh` begins one."""
        if across != self.parts[-1]["across"]:
            self.parts.append({"across": across, "blocks": []})
        elif fresh:
            self.new_page()
        self._add("section", text=self._words(title, 12.5, True))

    def new_page(self) -> None:
        """What follows begins a page."""
        if self.parts[-1]["blocks"]:
            self._add("page")

    # What sheets are made of --------------------------------------------------------------------

    def heading(self, level: int, text: str) -> None:
        """A heading within a section; level 2 for a joint, 3 for a part of it, 4 for a table."""
        self.height += _HEADING
        self._add("heading", level=level, text=self._words(text, 10.5, True))

    def line(self, text: str, leads: bool = False) -> None:
        """A paragraph; one that `leads` stays with what follows, as the one before a table does."""
        self.height += self._lines(text) * _LEADING + _GAP
        self._add("line", text=self._words(text), leads=leads)

    def warning(self, text: str) -> None:
        """A paragraph nobody must miss."""
        self._add("warning", text=self._words(text, bold=True))

    def bullets(self, texts: Iterable[str]) -> None:
        """A list; nothing at all where there is no text."""
        plain = list(texts)
        if not plain:
            return
        self.height += sum(self._lines(text) * _LEADING + 1.5 for text in plain) + _GAP
        # The longest few may take two lines.
        widths = sorted(letters.width(text[:200], _BODY) for text in plain)
        usual = widths[len(widths) * 4 // 5]
        columns = int(self.room / (usual + 10)) if len(plain) > _FEW else 1
        columns = min(max(columns, 1), 4)
        room = self.room / columns - 8
        self._add(
            "bullets", columns=columns, texts=[self._words(text, room=room) for text in plain]
        )

    def table(
        self,
        heads: Sequence[str],
        rows: Iterable[Sequence[str]],
        style: tables.Style = tables.NORMAL,
        keep: int = 1,
        *,
        changed: Sequence[str] = (),
        whole: Sequence[int] = (),
    ) -> None:
        """A table; every row has as many cells as there are heads (ValueError).

        Texts of the columns `whole` are broken last. A row that is `changed` has a bar at its
        right edge, and the mark beside it.
        """
        body = self._rows(heads, rows)
        if body:
            for part in tables.fitted(heads, body, self.room, style, keep, whole):
                self.height += tables.height(part) + _GAP
                for row, mark in zip(part["rows"], changed, strict=False):
                    row["changed"] = letters.short(mark, 8.0, 6.5) if mark else ""
                self._add("table", together=_short(body), **part)

    def facts(self, pairs: Iterable[tuple[str, str]]) -> None:
        """Names and values, two beside each other where both are short; those without a value are
        left out."""
        label = min(_LABEL, self.room * _NAMED)
        half = self.room / 2 - label - 3 * tables.PADDING
        found = []
        for name, value in pairs:
            if not value:
                continue
            wide = len(value) > 200 or letters.width(letters.plain(value), 8.5) > half
            taken = self._lines(value, self.room - label) * 3.4 + 2.0
            self.height += taken if wide else taken / 2
            found.append(
                {
                    "name": self._words(name, 8.5, room=label),
                    "value": self._words(value, 8.5, room=self.room - label - 4),
                    "wide": wide,
                }
            )
        if found:
            self._add("facts", label=label, pairs=found)

    def form(
        self,
        heads: Sequence[str],
        rows: Iterable[Sequence[str]],
        widths: Sequence[float],
        height: float = 8.0,
        upright: Sequence[int] = (),
        *,
        changed: Sequence[str] = (),
        dense: bool = False,
        lead: int = 0,
        whole: bool = False,
    ) -> None:
        """A table with cells to write in. `widths` are parts of the page, kept as far as no word
        is broken for it; `height` is that of a row in mm; the heads of the columns `upright` are
        turned; `changed` as in a table; `dense` has smaller letters and less room about them; the
        first `lead` rows stand, like the heads, on every page the form goes on to; one that is
        `whole` is not broken."""
        body = self._rows(heads, rows)
        # A box to tick has no letters that want room.
        lettered = [["" if cell == BOX else cell for cell in row] for row in body]
        across = tables.given(widths, heads, lettered, self.room, upright)
        points = _DENSE if dense else _FORM
        rooms = [width - 2 * tables.PADDING for width in across]
        self._add(
            "form",
            widths=[round(width, 3) for width in across],
            height=height,
            upright=list(upright),
            points=points,
            dense=dense,
            lead=lead,
            together=whole or _short(body),
            heads=[
                letters.pieces(head, 0 if index in upright else room, 7.2, True)
                for index, (head, room) in enumerate(zip(heads, rooms, strict=True))
            ],
            rows=[
                {
                    "whole": tables.is_whole(row),
                    "cells": [
                        {"box": True} if cell == BOX else letters.pieces(cell, room, points)
                        for cell, room in zip(row, rooms, strict=True)
                    ],
                    "changed": letters.short(mark, 8.0, 6.5) if mark else "",
                }
                for row, mark in zip_longest(body, changed[: len(body)], fillvalue="")
            ],
        )

    def add_signs(self, signs: Iterable[tuple[str, Any]]) -> None:
        """Signs, each an SVG with pieces of text beside it, in two columns."""
        self._add("signs", signs=[{"svg": svg, "text": text} for svg, text in signs])

    def drawing(
        self, svg: str, size: tuple[float, float], said: str, beside: Pages | None = None
    ) -> None:
        """A drawing of that width and height in mm, with a line below and, if there is something,
        a column beside it."""
        self._add(
            "drawing",
            svg=svg,
            width=size[0],
            height=size[1],
            text=self._words(said, 8.0),
            beside=beside.parts[0]["blocks"] if beside is not None else [],
        )

    def take(self, other: Pages) -> None:
        """All that another of the same width has."""
        self.height += other.height
        self._blocks.extend(other.blocks)

    def columns(self, made: Sequence[Pages], parts: Sequence[float] = ()) -> None:
        """What is in the making, beside each other and kept on one page; `parts` of the room."""
        self._add(
            "columns",
            columns=[one.parts[0]["blocks"] for one in made],
            parts=list(parts[: len(made)]) or [1] * len(made),
        )

    # ---------------------------------------------------------------------------------------------

    @property
    def _blocks(self) -> list[Block]:
        blocks: list[Block] = self.parts[-1]["blocks"]
        return blocks

    def _lines(self, text: str, room: float = 0.0) -> int:
        return ceil(letters.width(text[:20_000], _BODY) / max(room or self.room, 1.0))

    def _add(self, kind: str, **more: Any) -> None:
        blocks = self._blocks
        if kind in _LED and blocks and blocks[-1]["kind"] == "line":
            # A line that leads to something is not left behind on the page before.
            blocks[-1]["leads"] = True
        blocks.append({"kind": kind, **more})

    def _words(
        self, text: str, points: float = _BODY, bold: bool = False, room: float = 0.0
    ) -> Any:
        return letters.pieces(text, room or self.room - 8, points, bold)

    def _rows(self, heads: Sequence[str], rows: Iterable[Sequence[str]]) -> list[Sequence[str]]:
        body = list(rows)
        for row in body:
            if len(row) != len(heads):
                raise ValueError(f"{len(row)} cells in a table of {len(heads)} columns")
        return body


def _short(rows: Sequence[Sequence[str]]) -> bool:
    """Whether a table is so short that a break would only tear it apart."""
    return len(rows) <= _TOGETHER and sum(len(cell) for row in rows for cell in row) < _LONG


#: A cell of a form with a box to tick.
BOX = "\udfff"
