"""Words that stand beside readings and say that they are none: Bad, OPEN, Fail."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from hts.record.reading.cells import LONGEST

if TYPE_CHECKING:
    import polars as pl

#: Names of columns of such words.
NAMES = ("status", "quality", "state", "valid", "validity", "flag")
#: What instruments write there. Basis: common practice, no source.
_BAD = re.compile(r"(?:bad|open|burn|err|fail|fault|invalid|no data|o/c).*", re.I)


def bad_words(column: pl.Series) -> list[str]:
    """The cells of a column, each once, that say so."""
    cells = column.cast(str).drop_nulls().unique().to_list()
    return [one for one in cells if len(one) < LONGEST and _BAD.fullmatch(one.strip())]
