"""Columns that bear the tag of a thermocouple beside the one that is taken for its readings."""

from __future__ import annotations

import re

from hts.record.record import Record, Series

#: What such a column is called beside the tag.
_AS_MEASURED = re.compile(
    r"([\w-]+?)[\s:;,()/._-]+"
    r"(?:raw|uncorrected|unfiltered|unadjusted|measured|original|as[ -]?read|old)"
    r"(?:[\s:;,()/._-]+(?:value|reading|temp(?:erature)?))?\)?",
    re.I,
)


def beside_its_own(record: Record) -> list[tuple[str, Series]]:
    """Tags, and the columns that stand beside theirs by such a name."""
    tags = {tag.casefold(): tag for tag in record.series}
    named = ((_AS_MEASURED.fullmatch(one.column.strip()), one) for one in record.unmapped.values())
    return [
        (tags[found[1].casefold()], column)
        for found, column in named
        if found is not None and found[1].casefold() in tags
    ]
