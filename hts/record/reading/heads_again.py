"""Names and units that stand again in the midst of a log, as at the head of each page."""

from __future__ import annotations

from collections.abc import Sequence

from hts.record.errors import RecordError
from hts.record.reading.sniff import Layout
from hts.record.reading.units import head, is_unit, temperature_unit

#: Of the cells of a line, the part that are names of columns where it is a head. Basis: practice.
_HEAD = 0.5


def refuse_other_heads(cells: Sequence[object], place: str, layout: Layout) -> None:
    """Raises RecordError where a line names the columns, or their units, otherwise than at the
    head: what follows it belongs to other columns."""
    heads = [head(str(cell).strip()) if cell is not None else None for cell in cells]
    filled = [one for one in heads if one is not None and (one.name or one.unit)]
    names = {name.casefold() for name in layout.names if name}
    named = sum(one.name.casefold() in names for one in filled)
    if named > 1 and named >= _HEAD * len(filled):
        for at, one in enumerate(heads):
            if one is None or not one.name or not layout.names[at]:
                continue
            if one.name.casefold() != layout.names[at].casefold():
                raise _other(place, at, one.name, layout.names[at])
            unit, written = (temperature_unit(u) or u for u in (one.unit, layout.units[at]))
            if unit and written and unit != written:
                raise _other(place, at, one.unit, layout.units[at])
    elif filled and sum(map(is_unit, (one.unit or one.name for one in filled))) > 1:
        for at, one in enumerate(heads):
            found = temperature_unit(one.unit or one.name) if one is not None else None
            before = temperature_unit(layout.units[at])
            if found and before and found != before:
                raise _other(place, at, found, before)


def _other(place: str, at: int, found: str, before: str) -> RecordError:
    return RecordError(
        f"{place}:{at + 1}",
        f"from here on this column is headed {found!r}, and {before!r} before",
        "cut the file there, and give both parts with their own heads",
    )
