"""Drives LALR(1) tables that were built from a Lark grammar.

The grammars in ``grammar/`` are the ones in force; Lark turns them into tables when the project
is built (`hts.generate.parse_tables`). Driving the tables here keeps start-up short and gives the
parser full say in recovering from an error: the driver stops in the state it was in, and the caller
decides what to insert, skip or pop.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

from hts.base.data import load


class Token:
    """One terminal with its place: ``text`` is ``source[start:end]`` (empty if inserted)."""

    __slots__ = ("end", "kind", "start", "text")

    def __init__(self, kind: str, text: str, start: int, end: int) -> None:
        self.kind = kind
        self.text = text
        self.start = start
        self.end = end

    def __repr__(self) -> str:
        return f"<{self.kind} {self.text!r}>"


END = "$END"

# Blanks between two tokens of a line, tried first: almost every second match is one of these.
_BETWEEN = r"(?P<BLANK>[ \t]+(?=[^ \t\r\n#]))|"

Action = Callable[[list[Any]], Any]
Recovery = Callable[["Machine", Token], bool]


class Tables:
    """Parse tables with the functions that build a node for each rule."""

    __slots__ = ("end", "lexer", "rules", "start", "states")

    def __init__(self, name: str, actions: dict[str, Action], misfits: str = "") -> None:
        """``misfits``: further named groups tried last, for text no terminal fits."""
        data = load(f"grammar-{name}")
        self.lexer = re.compile(_BETWEEN + data["lexer"] + misfits + r"|(?P<ILLEGAL>(?s:.))")
        self.states: list[dict[str, int]] = data["states"]
        self.start: int = data["start"]
        self.end: int = data["end"]
        self.rules = [
            (origin, length, _builder(origin, alias, length, kept, bool(expand), actions))
            for origin, alias, length, kept, expand in data["rules"]
        ]

    def tokens(self, text: str, start: int = 0, end: int | None = None) -> Iterator[Token]:
        """Every token of ``text[start:end]`` but blanks; text no terminal fits is ILLEGAL."""
        match = self.lexer.scanner(text, start, len(text) if end is None else end).match  # type: ignore[attr-defined]
        found = match()
        while found is not None:
            kind = found.lastgroup
            if kind != "BLANK" and kind != "SKIP":
                yield Token(kind, found.group(), found.start(), found.end())
            found = match()


def _builder(
    origin: str, alias: str, length: int, kept: list[int], expand: bool, actions: dict[str, Action]
) -> Action:
    everything = len(kept) == length
    if origin.startswith("__"):
        # A repetition, which Lark writes as a left-recursive helper rule: one growing list.
        item = kept[-1]

        def repeat(children: list[Any]) -> Any:
            if length > 1 and type(children[0]) is list:
                children[0].append(children[item])
                return children[0]
            return [children[i] for i in kept]

        return repeat
    if expand and len(kept) == 1:
        only = kept[0]
        return lambda children: children[only]
    action = actions[alias]
    if everything:
        return action
    return lambda children: action([children[i] for i in kept])


class Machine:
    """The stacks of one parse, open to the recovery."""

    __slots__ = ("states", "tables", "values")

    def __init__(self, tables: Tables) -> None:
        self.tables = tables
        self.states = [tables.start]
        self.values: list[Any] = []

    def accepts(self, kind: str) -> bool:
        return kind in self.tables.states[self.states[-1]]

    def goto(self, origin: str, value: Any) -> None:
        """Pushes a finished nonterminal, as the end of a reduction does."""
        self.states.append(self.tables.states[self.states[-1]][origin])
        self.values.append(value)

    def feed(self, token: Token) -> bool:
        """Reduces as far as the token asks for, then shifts it; False where it does not fit.

        A token that does not fit leaves the machine before any reduction it did not need.
        """
        table = self.tables.states
        rules = self.tables.rules
        states = self.states
        values = self.values
        kind = token.kind
        while True:
            action = table[states[-1]].get(kind)
            if action is None:
                return False
            if action >= 0:
                states.append(action)
                values.append(token)
                return True
            origin, length, build = rules[-1 - action]
            if length:
                children = values[-length:]
                del values[-length:]
                del states[-length:]
                values.append(build(children))
            else:
                values.append(build([]))
            states.append(table[states[-1]][origin])
            if states[-1] == self.tables.end and kind == END:
                return True


def parse(tables: Tables, tokens: list[Token], length: int, recover: Recovery) -> Any:
    """Value of the start rule.

    ``recover(machine, token)`` is called where a token does not fit; it changes the machine and
    returns True to try the token again, False to go on with the next one. It may raise.
    """
    machine = Machine(tables)
    feed = machine.feed
    for token in tokens:
        while not feed(token):
            if not recover(machine, token):
                break
    end = Token(END, "", length, length)
    while not feed(end):
        if not recover(machine, end):
            break
    return machine.values[-1]
