"""The terminals of the grammars that come from the closed unit set."""

from __future__ import annotations

from hts.base.quantities.pattern import QUANTITY_PATTERN
from hts.base.quantities.units import ALIASES, SYMBOLS


def units_grammar() -> str:
    """Text of the module the grammars import as ``.units``."""
    spellings = sorted({*SYMBOLS, *ALIASES, "°C", "°F", "°C/h", "°F/h"})
    small = [s for s in spellings if not s[0].isupper()]
    capital = [s for s in spellings if s[0].isupper()]
    pattern = QUANTITY_PATTERN.replace("/", r"\/")
    return (
        f"QUANTITY.7: /{pattern}/\n"
        f"UNIT_SMALL: {' | '.join(map(_quoted, small))}\n"
        f"UNIT_CAPITAL: {' | '.join(map(_quoted, capital))}\n"
    )


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
