"""The regular expression of one quantity token, for the grammar.

It takes every text `Quantity.read` takes (a plain number, which has no unit, apart) and, besides,
the usual miswritten units (`200 degC/hr`, `8 hours`, `705 C`), so that these come back from
`Quantity.read` with a suggestion instead of breaking the line apart. It never takes `6 t`, a
multiple of the wall, nor `5A`, `15E` and `80S`, which are names. No groups, no lookbehind.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from hts.base.quantities.spelling import MISWRITTEN
from hts.base.quantities.units import ALIASES, SYMBOLS

_BLANKS = r"[ \t]"
_WHOLE = "[0-9]+"
_FRACTION = "[0-9]+/[0-9]+"
_NUMBER = rf"(?:{_WHOLE}{_BLANKS}+{_FRACTION}|{_FRACTION}|[0-9]+\.[0-9]+|{_WHOLE})"
# A unit ends where a word ends; `5 in-line` begins with no quantity.
_END = r"(?![\w°²³µΩ]|-[A-Za-z])"


def spellings() -> set[str]:
    """Every spelling of a unit: symbols, aliases, the ones with signs, the miswritten."""
    plain = {*SYMBOLS, *ALIASES}
    signed = {unit.replace("degC", "°C").replace("degF", "°F") for unit in plain}
    raised = {unit.replace(a, b) for unit in signed for a, b in (("2", "²"), ("3", "³"))}
    return {*plain, *signed, *raised, "µm", "μm", *MISWRITTEN}


def _alternatives(units: Iterable[str]) -> str:
    """Longest first, so that `min/mm` is not taken for `min`; then by alphabet, to be stable."""
    return "|".join(re.escape(unit) for unit in sorted(units, key=lambda unit: (-len(unit), unit)))


def _build() -> str:
    known = spellings()
    apart = {unit for unit in known if unit[0].isupper()}
    single = (
        rf"{_NUMBER}(?:{_BLANKS}*(?:{_alternatives(known - apart)})"
        rf"|{_BLANKS}+(?:{_alternatives(apart)})){_END}"
    )
    compound = (
        rf"{_WHOLE}{_BLANKS}*(?:d|h|min)"
        rf"(?:{_BLANKS}+{_NUMBER}{_BLANKS}*(?:h|min|s){_END})+"
    )
    return rf"-?(?:{compound}|{single})"


QUANTITY_PATTERN: str = _build()
"""Source of the expression; use it from the start of a token."""
