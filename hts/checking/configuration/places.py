"""Where the keys of a TOML text stand: tomllib, which reads the values, does not say.

The text must be TOML that tomllib accepts; only keys and the nesting of values are looked at.
Source of the forms: TOML 1.0.0, toml.io.
"""

from __future__ import annotations

import re
from typing import NamedTuple

Path = tuple[str | int, ...]

_TOKEN = re.compile(
    r"(?P<blank>[ \t\r\n]+|#[^\n]*)"
    r'|(?P<string>"""(?:\\.|[^\\])*?"{3,5}|\'\'\'.*?\'{3,5}|"(?:\\.|[^"\\\n])*"|\'[^\'\n]*\')'
    r"|(?P<mark>[\[\]{},=.])"
    r'|(?P<word>[^\s\[\]{},=."\'#]+)',
    re.DOTALL,
)


class _Token(NamedTuple):
    kind: str
    text: str
    start: int
    #: Whether it is the first on its line.
    first: bool


def places(text: str) -> dict[Path, int]:
    """Offset of each key, and of each value of an array, by the way to it: ``("labels", "rows")``,
    ``("ignore", 0)``. A table's place is that of the last part of its name where it is first
    named."""
    return _Reader(text).read()


class _Reader:
    def __init__(self, text: str) -> None:
        self.tokens = _tokens(text)
        self.at = 0
        self.found: dict[Path, int] = {}
        #: Tables of each array of tables so far.
        self.counts: dict[Path, int] = {}

    def read(self) -> dict[Path, int]:
        table: Path = ()
        while self.at < len(self.tokens):
            if self._is("["):
                table = self._header()
            else:
                self._entry(table)
        return self.found

    def _header(self) -> Path:
        """`[a.b]` or `[[a.b]]`."""
        self.at += 1
        many = self._is("[")
        self.at += many
        path: Path = ()
        for name, start in self._key():
            path = self._latest((*path, name))
            self.found.setdefault(path, start)
        self.at += 1 + many
        if many:
            path = path[:-1] if isinstance(path[-1], int) else path
            number = self.counts.get(path, 0)
            self.counts[path] = number + 1
            path = (*path, number)
            self.found[path] = start
        return path

    def _latest(self, path: Path) -> Path:
        """An array of tables stands for the last table in it."""
        return (*path, self.counts[path] - 1) if path in self.counts else path

    def _entry(self, table: Path) -> None:
        """`a.b = value`."""
        path = table
        for name, start in self._key():
            path = (*path, name)
            self.found.setdefault(path, start)
        self.at += 1
        self._value(path)

    def _key(self) -> list[tuple[str, int]]:
        """The parts of a key with their offsets."""
        parts = []
        while True:
            token = self.tokens[self.at]
            parts.append((_name(token), token.start))
            self.at += 1
            if not self._is("."):
                return parts
            self.at += 1

    def _value(self, path: Path) -> None:
        if self._is("["):
            self.at += 1
            number = 0
            while not self._is("]"):
                self.found[(*path, number)] = self.tokens[self.at].start
                self._value((*path, number))
                self.at += self._is(",")
                number += 1
            self.at += 1
        elif self._is("{"):
            self.at += 1
            while not self._is("}"):
                self._entry(path)
                self.at += self._is(",")
            self.at += 1
        else:
            # One string, or the pieces of a number or a date: 1.5, 1979-05-27 07:32:00.
            self.at += 1
            while self.at < len(self.tokens):
                token = self.tokens[self.at]
                if token.first or (token.kind == "mark" and token.text != "."):
                    return
                self.at += 1

    def _is(self, mark: str) -> bool:
        if self.at >= len(self.tokens):
            return False
        token = self.tokens[self.at]
        return token.kind == "mark" and token.text == mark


def _tokens(text: str) -> list[_Token]:
    made = []
    first = True
    for match in _TOKEN.finditer(text):
        kind = match.lastgroup or ""
        if kind == "blank":
            first = first or "\n" in match.group()
            continue
        made.append(_Token(kind, match.group(), match.start(), first))
        first = False
    return made


def _name(token: _Token) -> str:
    if token.kind != "string":
        return token.text
    import tomllib

    return str(tomllib.loads(f"k={token.text}")["k"])
