"""What stands above the readings of a log: names, units, further rows of names, remarks."""

from __future__ import annotations

import re

from hts.record.errors import RecordError
from hts.record.reading.units import head, is_unit, temperature_unit, time_unit


def filled(row: list[str]) -> int:
    """Cells up to the last that holds something: separators at the end of a line mean nothing."""
    return max((at + 1 for at, cell in enumerate(row) if cell), default=0)


def header(
    rows: list[list[str]], width: int, name: str
) -> tuple[list[str], list[str], list[list[str]], int]:
    """Names, units, further rows of names, and the line of the names. Raises RecordError where a
    name and the row of units contradict each other."""
    block: list[tuple[int, list[str]]] = []
    for at in range(len(rows) - 1, -1, -1):
        if not any(rows[at]) or _is_remark(rows[at], width):
            if block:
                break
            continue
        # A row of the header has about as many cells as a row of readings.
        # Of two columns the row of units may name that of the time alone.
        of_units = not block and _is_unit_row(rows[at])
        if (filled(rows[at]) * 2 <= width and not of_units) or len(rows[at]) < 2:
            break
        block.append((at, rows[at]))
    units_row: list[str] = []
    if len(block) > 1 and _is_unit_row(block[0][1]):
        units_row = block.pop(0)[1]
    if not block:
        return [], [], [], 0
    line, names = block[0]
    names = [names[0].lstrip("#%").strip(), *names[1:]]
    heads = [head(cell) for cell in names[: max(width, filled(names))]]
    below = [cell.strip("[]()") for cell in units_row[: len(heads)]]
    below += [""] * (len(heads) - len(below))
    for cell, found, unit in zip(names, heads, below, strict=False):
        stated = temperature_unit(found.unit), temperature_unit(unit)
        if all(stated) and stated[0] != stated[1]:
            raise RecordError(
                f"{name}:{line + 1}",
                f"{cell!r} states {stated[0]}, and the row of units below it {stated[1]}",
                "find out which is right, and correct the other in a copy of the file",
            )
    units = [found.unit or unit for found, unit in zip(heads, below, strict=True)]
    # Rows above count as names too when they are as full: with two columns any line is.
    aliases = [row for _, row in block[1:] if width > 2 and filled(row) >= width - 1]
    return [found.name for found in heads], units, aliases, line + 1


def _is_remark(row: list[str], width: int) -> bool:
    """Whether it is marked as a remark, and has too few cells for names."""
    return bool(row) and row[0].startswith(("#", "%", "//")) and filled(row) * 2 <= width


def _is_unit_row(row: list[str]) -> bool:
    cells = [cell for cell in row if cell.strip("-#")]
    known = sum(map(is_unit, cells))
    some = any(temperature_unit(cell) or time_unit(cell) for cell in cells)
    return bool(cells) and some and known * 2 > len(cells)


def preamble(lines: list[str], separator: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for line in lines:
        text = line.strip().lstrip("#%").strip().strip('"')
        match = re.match(r"([^:=]{1,40}?)\s*[:=]\s*(.*)", text)
        if match is None and separator in text:
            key, _, value = text.partition(separator)
            match = re.match(r"(.*)\0(.*)", f"{key}\0{value}", re.S)
        if match is not None:
            key, value = match[1].strip(' "').casefold(), match[2].strip(f' "{separator}')
            found.setdefault(key, value)
        elif text:
            found.setdefault(text.casefold(), "")
    return found


def remarks(rows: list[list[str]], width: int) -> tuple[str, ...]:
    """Those of the rows between names and readings that are remarks, as people read them."""
    return tuple(" ".join(filter(None, row)) for row in rows if _is_remark(row, width))
