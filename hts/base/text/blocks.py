"""The blocks a line of a text lies in, told by their braces alone: no error of form hinders it."""

from __future__ import annotations

import re

from hts.base.text.source import Source

#: Braces open and close blocks, but for those in texts and comments.
_BRACE = re.compile(r'"[^"]*"?|#.*|[{}]')


def brace_lines(source: Source) -> list[int]:
    """Numbers of the lines with a brace in them."""
    lines = source.text.split("\n")
    return [number for number, line in enumerate(lines, 1) if "{" in line or "}" in line]


def blocks_around(source: Source, number: int) -> list[str]:
    """The first lines of the blocks that are open where a line begins, from the outside in."""
    opened: list[str] = []
    for line_number in brace_lines(source):
        if line_number >= number:
            break
        line = source.line(line_number)
        for found in _BRACE.finditer(line):
            if found[0] == "{":
                opened.append(line)
            elif found[0] == "}" and opened:
                opened.pop()
    return opened
