"""The blocks a line of a text lies in, told by their braces alone: no error of form hinders it."""

from __future__ import annotations

import re
from bisect import bisect_left
from functools import lru_cache
from typing import NamedTuple

from hts.base.text.source import Source

#: Braces open and close blocks, but for those in texts and comments.
_BRACE = re.compile(r'"[^"]*"?|#.*|[{}]')


class _Open(NamedTuple):
    """An open block: the one around it, and the number of its first line."""

    around: _Open | None
    line: int


def brace_lines(source: Source) -> list[int]:
    """Numbers of the lines with a brace in them."""
    lines = source.text.split("\n")
    return [number for number, line in enumerate(lines, 1) if "{" in line or "}" in line]


def blocks_around(source: Source, number: int) -> list[str]:
    """The first lines of the blocks that are open where a line begins, from the outside in."""
    numbers, states = _blocks(source.text)
    before = bisect_left(numbers, number)
    innermost = states[before - 1] if before else None
    opened: list[str] = []
    while innermost is not None:
        innermost, line_number = innermost
        opened.append(source.line(line_number))
    return opened[::-1]


@lru_cache(maxsize=4)
def _blocks(text: str) -> tuple[list[int], list[_Open | None]]:
    """The numbers of the lines with a brace, and the innermost block open after each: a text with
    many findings is gone through once."""
    numbers: list[int] = []
    states: list[_Open | None] = []
    innermost: _Open | None = None
    for number, line in enumerate(text.split("\n"), 1):
        if "{" not in line and "}" not in line:
            continue
        for found in _BRACE.finditer(line):
            if found[0] == "{":
                innermost = _Open(innermost, number)
            elif found[0] == "}" and innermost is not None:
                innermost = innermost.around
        numbers.append(number)
        states.append(innermost)
    return numbers, states
