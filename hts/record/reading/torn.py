"""Rows that were cut while they were written: left out, for half a number looks like a reading."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hts.record.reading.cells import runs_on, shaped
from hts.record.reading.sniff import Layout

Places = NDArray[np.intp]

#: Of the rows at most so many may be torn, and three in any case; else the file is laid out so.
_RARE = 0.01


def rare(torn: int, rows: int) -> bool:
    """Whether so many rows of a log can have been torn."""
    return torn <= max(3, _RARE * rows)


def without_torn(text: bytes, layout: Layout) -> tuple[bytes, list[str]]:
    """The text with torn rows as empty lines, so that the others keep their numbers, and what is to
    be said of them.

    A row is torn where it has fewer cells than nearly all others, or runs into the next one. What
    is no row of readings at all is left for those who look at the times.
    """
    text, notes = _without_last(text, layout)
    separator = layout.separator.encode()
    if layout.separator in "  " or layout.width < 2:
        return text, notes
    codes = np.frombuffer(text, dtype=np.uint8)
    ends = np.flatnonzero(codes == 10)
    if len(ends) <= layout.first + 2:
        return text, notes
    begins = int(ends[layout.first - 1]) + 1 if layout.first else 0
    if text.find(b'"', begins) >= 0:
        return text, notes
    marks = np.flatnonzero(codes == separator[0])
    if _as_many_in_each(marks, ends[layout.first :], begins):
        return text, notes
    counts = np.diff(np.searchsorted(marks, ends), prepend=0)
    starts = np.concatenate(([0], ends[:-1] + 1))
    inside = np.arange(len(ends)) >= layout.first
    filled = inside & (ends - starts > 1)
    usual = int(np.bincount(counts[filled]).argmax()) if filled.any() else 0
    odd = np.flatnonzero(filled & (counts != usual))
    if not len(odd) or not rare(len(odd), int(filled.sum())):
        return text, notes
    shape = _usual_stamp(text, starts, ends, filled & (counts == usual), separator)
    lines = []
    for line in odd.tolist():
        row = text[starts[line] : ends[line]].decode("utf-8", "replace")
        joined = runs_on(row, shape)
        short = counts[line] < usual and row[:1].isdigit() and counts[line] < layout.width - 1
        if joined or short:
            lines.append((line, row))
    if not lines:
        return text, notes
    kept = bytearray(text)
    for line, _ in lines:
        kept[starts[line] : ends[line]] = b" " * int(ends[line] - starts[line])
    where = ", ".join(str(line + 1) for line, _ in lines[:5])
    which = f"Lines {where} are" if len(lines) > 1 else f"Line {where} is"
    return bytes(kept), [*notes, f"{which} torn and left out: {lines[0][1][:40]!r}."]


def _as_many_in_each(marks: Places, ends: Places, begins: int) -> bool:
    """Whether as many `marks` stand in each of the lines with these `ends`: most logs are whole."""
    marks = marks[np.searchsorted(marks, begins) :]
    if not len(marks) or len(marks) % len(ends):
        return False
    by_line = marks.reshape(len(ends), -1)
    return bool(np.all(by_line[1:, 0] > ends[:-1]) and np.all(by_line[:, -1] < ends))


def _usual_stamp(
    text: bytes, starts: Places, ends: Places, rows: NDArray[np.bool_], separator: bytes
) -> str:
    row = int(np.argmax(rows))
    return shaped(text[starts[row] : ends[row]].split(separator)[0].decode("utf-8", "replace"))


def torn_stamp(cell: str, usual: str) -> bool:
    """Whether a time is the beginning of one, or the beginning of one and then another."""
    found = shaped(cell)
    return len(usual) >= 5 and found != usual and (usual.startswith(found) or usual in found[1:])


def _without_last(text: bytes, layout: Layout) -> tuple[bytes, list[str]]:
    """Without a last row that has no line end and too few cells, for the recorder was writing."""
    last = text[text.rfind(b"\n") + 1 :]
    separator = layout.separator.encode()
    if not last.strip() or layout.separator in "  " or layout.width < 2:
        return text, []
    if last.count(separator) >= layout.width - 1:
        return text, []
    return text[: len(text) - len(last)], ["The last row is cut off and left out."]
