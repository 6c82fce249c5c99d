"""Texts to lay out: the good ones, and the same with their white space in disorder."""

from __future__ import annotations

import os
from itertools import pairwise
from random import Random

from hts.base.findings import Report
from hts.base.text import Source
from hts.checking.rules.examples import BASES
from hts.generate import ROOT
from hts.syntax import Token, parse

_SPECS = os.path.join(ROOT, "specs")
_SIGNS = frozenset({"LPAR", "RPAR", "COMMA", "LBRACE", "OPERATOR", "DOTS", "PLUS_MINUS"})

#: Pieces of tokens that read as other tokens where blanks part or join them.
_PIECES = (
    "6",
    "t",
    "/",
    "2",
    "-3",
    "by",
    "rule",
    "-",
    "deg",
    "C",
    "°C",
    "5",
    "2 h",
    "30 min",
    "in",
    "1/2",
    "W",
    "A",
    "%",
    "12:00",
    "2026-11-20",
    "a",
    "min",
    "x-y",
    "(",
    "(",
    ")",
    ")",
    ",",
    ",",
    " ",
    " ",
    " ",
    "  ",
    "\t",
    "\n",
    "\n",
    ",\n",
    "# c\n",
    ",# c\n",
    "\n\n",
    "\r\n",
    " {",
    "}",
    "{\n",
    "\n}\n",
    " .. ",
    "…",
    "+/-",
    "±",
    "<",
    "=",
    "*",
    '"q"',
    '"# {"',
)


def good_texts() -> dict[str, str]:
    """Name to text: the bases of the rule examples and every good specification."""
    found = {f"base {name}": text for name, text in BASES.items()}
    for folder, folders, names in os.walk(_SPECS):
        folders[:] = sorted(name for name in folders if name != "broken")
        for name in sorted(names):
            if name.endswith(".hts"):
                path = os.path.join(folder, name)
                with open(path, encoding="utf-8", newline="") as file:
                    found[os.path.relpath(path, ROOT)] = file.read()
    return found


def tokens_of(text: str) -> list[Token] | None:
    """The tokens of a text, None where its form has errors."""
    report = Report()
    tree = parse(Source(text, "text.hts"), report)
    return None if report.findings else tree.tokens


def disarranged(random: Random, text: str) -> str:
    """The text with other white space, read as the same tokens; lines break where they did.

    The text itself where its form has errors, or where the new white space is read otherwise.
    """
    tokens = tokens_of(text)
    if not tokens:
        return text
    parts = [_other_gap(random, text[: tokens[0].start])]
    for before, after in pairwise(tokens):
        parts.append(_other_token(random, before))
        gap = text[before.end : after.start]
        if gap.strip(" \t"):
            parts.append(_other_gap(random, gap))
        elif before.kind == "COMMA" and after.text[:1].isdigit():
            parts.append(_blanks(random, 1))
        elif "_NL" in (before.kind, after.kind) or {before.kind, after.kind} & _SIGNS:
            parts.append(_blanks(random, 0))
        else:
            parts.append(_blanks(random, 1) if gap else "")
    parts += _other_token(random, tokens[-1]), text[tokens[-1].end :]
    new = "".join(parts)
    again = tokens_of(new)
    same = again is not None and [(t.kind, _core(t)) for t in again] == [
        (t.kind, _core(t)) for t in tokens
    ]
    return new if same else text


def fragments(random: Random) -> str:
    """Pieces of tokens in any order, closed at the end where blocks are left open."""
    text = "a " + "".join(random.choice(_PIECES) for _ in range(random.randint(1, 14)))
    return text + "\n}" * max(0, text.count("{") - text.count("}"))


def _core(token: Token) -> str:
    return "" if token.kind == "_NL" else token.text[:1] if token.kind == "COMMA" else token.text


def _blanks(random: Random, fewest: int) -> str:
    if not fewest and random.random() < 0.4:
        return ""
    return random.choice((" ", "  ", "\t", "     ", " \t "))


def _other_token(random: Random, token: Token) -> str:
    return _other_gap(random, token.text) if token.kind in ("_NL", "COMMA") else token.text


def _other_gap(random: Random, gap: str) -> str:
    """White space, comments and line ends with other blanks, and more blank lines beside one."""
    first, *others = gap.split("\n")
    lines = [first]
    for index, line in enumerate(others):
        if line.strip(" \t\r") == "" and index < len(others) - 1 and random.random() < 0.3:
            lines.append(_blanks(random, 0))
        lines.append(_blanks(random, 0) + line.lstrip(" \t"))
    return "\n".join(lines)
