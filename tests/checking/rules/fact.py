"""A fact of the trade and what keeps it."""

from __future__ import annotations

from typing import NamedTuple


class Fact(NamedTuple):
    """``codes``: findings that tell a breach. ``refused``: (old, new) texts in ``base`` that make
    one the language does not take. ``paper``: module and words of a check on site."""

    fact: str
    codes: str = ""
    refused: tuple[tuple[str, str], ...] = ()
    paper: tuple[str, str] = ("", "")
    base: str = "butt"
