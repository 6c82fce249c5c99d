"""How one token is written, and what stands between two of them."""

from __future__ import annotations

import re
from itertools import pairwise

from hts.syntax import Token
from hts.syntax.formula.functions import FUNCTIONS

_SIGNS = {"COMMA": ",", "DOTS": "..", "PLUS_MINUS": "+/-"}
#: Tokens that hold blanks of their own.
_BLANKS_INSIDE = frozenset({"QUANTITY", "NUMBER", "MULTIPLE", "BY_RULE"})
_NUMBER_TOUCHING_UNIT = re.compile(r"(?:^|(?<= ))(-?[\d./]+)(?=[^\d./ ])")
_DEGREE = re.compile("°([CF])")


def spelled(token: Token) -> str:
    """The token in its canonical spelling: `25.4mm` becomes `25.4 mm`, `±` becomes `+/-`."""
    kind = token.kind
    if kind in _SIGNS:
        return _SIGNS[kind]
    if kind not in _BLANKS_INSIDE:
        return token.text
    text = " ".join(token.text.split())
    if kind == "QUANTITY":
        text = _DEGREE.sub(r"deg\1", _NUMBER_TOUCHING_UNIT.sub(r"\1 ", text))
    return text


def between(before: Token, after: Token) -> str:
    """One blank, but none inside brackets, before a comma and after the name of a function.

    What follows a number at once is part of it: `IEC 60584-3`.
    """
    if before.kind == "LPAR" or after.kind in ("RPAR", "COMMA"):
        return ""
    if before.kind == after.kind == "NUMBER" and before.end == after.start:
        return ""
    if after.kind == "LPAR" and before.text in FUNCTIONS:
        return ""
    return " "


def joined(tokens: list[Token]) -> str:
    """Tokens of one line with the canonical blanks between them."""
    if not tokens:
        return ""
    parts = [spelled(tokens[0])]
    # What a waiver names is an address, with slashes that divide nothing.
    addressed = tokens[0].text == "waive"
    for before, after in pairwise(tokens):
        slash = addressed and "/" in (before.text, after.text)
        parts += "" if slash else between(before, after), spelled(after)
    return "".join(parts)
