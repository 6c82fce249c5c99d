"""Parses a source into a tree; goes on after every error with the next entry."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from hts.base.findings import Finding, Kind, Label, Report
from hts.base.text import Source
from hts.syntax import braces
from hts.syntax.conflicts import first_side
from hts.syntax.lalr import END, Machine, Tables, Token
from hts.syntax.lalr import parse as drive
from hts.syntax.lines import Lines
from hts.syntax.syntax_errors import (
    DECIMAL_COMMA,
    MISSING_LINE_BREAK,
    MOST_ITEMS,
    TOO_LONG,
    UNEXPECTED_SIGN,
    UNFINISHED_TEXT,
    UNREADABLE_CHARACTER,
    enough_told,
)
from hts.syntax.tree import Block, Entry, Group, Item, Tree

# Text that no terminal fits, told apart to say what is wrong with it. A brace that ends the line
# still opens a block, so that a quote forgotten before it costs no second finding. Nothing is given
# back (++), as every way back of a long text would be kept.
_LINE_ENDS = r'[ \t]*+\{?+[ \t]*+(?:["\n\r]|\Z)'
_MISFITS = (
    r'|(?P<UNFINISHED>"(?:[^"\n\r\\ \t{]++|\\["\\]|'
    rf'(?!{_LINE_ENDS})(?:[ \t]++|[^"\n\r]))*+)'
)
_BAD_ESCAPE = re.compile(r'(?:[^\\]|\\["\\])*+(\\.?)')

_DECIMAL_COMMA = re.compile(r"\d,\d")

_ENDS_PHRASE = frozenset({"_NL", "LBRACE", "RBRACE", END})


class _Phrase(list[Item]):
    """The items of an entry while its block is still to come."""

    __slots__ = ("broken", "end", "start")

    def __init__(self, items: list[Item], start: int, end: int, broken: bool = False) -> None:
        super().__init__(items)
        self.start = start
        self.end = end
        self.broken = broken


def _phrase(children: list[Any]) -> _Phrase:
    items = children[0]
    return _Phrase(items, items[0].start, items[-1].end)


def _entry(children: list[Any]) -> Entry:
    phrase = children[0]
    entry = Entry(list(phrase), phrase.broken, phrase.start, phrase.end)
    if len(children) == 2:
        block = children[1]
        entry.block = block
        entry.end = block.close.end
    return entry


def _block(children: list[Any]) -> Block:
    return Block(children[0], children[1] if len(children) == 3 else [], children[-1])


def _entries(children: list[Any]) -> list[Entry]:
    if len(children) == 1:
        return children
    children[0].append(children[1])
    return children[0]  # type: ignore[no-any-return]


def _tolerance(children: list[Any]) -> Group:
    if len(children) == 3:
        return Group("TOLERANCE", *children)
    return Group("TOLERANCE", None, *children)


@lru_cache(maxsize=1)
def tables() -> Tables:
    """The tables of ``grammar/hts.lark`` with the nodes its rules build."""
    return Tables(
        "hts",
        {
            "start": lambda children: children[0] if children else [],
            "entries": _entries,
            "entry": _entry,
            "block": _block,
            "phrase": _phrase,
            "range": lambda children: Group("RANGE", *children),
            "tolerance": _tolerance,
            "bound": lambda children: children[0],
        },
        _MISFITS,
    )


@lru_cache(maxsize=1)
def _lines() -> Lines:
    return Lines(tables(), braces.DEEPEST, MOST_ITEMS)


def parse(source: Source, report: Report) -> Tree:
    """Tree of a source; what is wrong with its form goes to the report."""
    text = first_side(source, report)
    entries = _lines().entries(text)
    if entries is not None:
        return Tree(source, lambda: _tokens(text), entries)
    return parse_whole(source, text, report)


def parse_whole(source: Source, text: str, report: Report) -> Tree:
    """The same of any text, as it stands there on the first side of its conflicts."""
    tokens = _tokens(text)
    mended = braces.balance(source, braces.join_lone_braces(source, tokens, report), report)
    entries = drive(tables(), mended, len(text), _Recovery(source, report))
    if len(tokens) > MOST_ITEMS:
        _refuse_long(source, entries, report)
    return Tree(source, lambda: tokens, entries)


def _tokens(text: str) -> list[Token]:
    tokens = _join_brackets(list(tables().tokens(text)), text)
    if _DECIMAL_COMMA.search(text):
        _mark_decimal_commas(tokens)
    return tokens


def _refuse_long(source: Source, entries: list[Entry], report: Report) -> None:
    for entry in entries:
        if len(entry.items) > MOST_ITEMS:
            entry.broken = True
            report.add(
                Finding(
                    TOO_LONG,
                    f"this entry has {len(entry.items):,} words and values",
                    Label(source.span(entry.start, entry.items[0].end)),
                    help="begin a new line where the next entry begins",
                )
            )
        if entry.block is not None:
            _refuse_long(source, entry.block.entries, report)


#: What a range or a tolerance is made of.
_BOUNDS = frozenset({"QUANTITY", "NUMBER", "MULTIPLE", "CLOCK", "DATE"})


def items_of(source: Source) -> tuple[list[Token], list[Item]]:
    """Tokens and items of a text that is one entry without its block.

    For who looks at a text in the midst of writing: nothing is told, and what stands behind an
    error is still there.
    """
    tokens = _join_brackets(list(tables().tokens(source.text)), source.text)
    items: list[Item] = []
    for at, token in enumerate(tokens):
        before = tokens[at - 1] if at else None
        sign = before is not None and before.kind in ("DOTS", "PLUS_MINUS")
        if not sign or token.kind not in _BOUNDS:
            items.append(token)
            continue
        assert before is not None
        low = tokens[at - 2] if at > 1 and tokens[at - 2].kind in _BOUNDS else None
        if before.kind == "PLUS_MINUS":
            del items[-2 if low else -1 :]
            items.append(Group("TOLERANCE", low, before, token))
        elif low is not None:
            del items[-2:]
            items.append(Group("RANGE", low, before, token))
        else:
            items.append(token)
    return tokens, items


def _mark_decimal_commas(tokens: list[Token]) -> None:
    for before, comma, after in zip(tokens, tokens[1:], tokens[2:], strict=False):
        if (
            comma.kind == "COMMA"
            and before.end == comma.start
            and comma.end == after.start
            and before.text[-1].isdigit()
            and after.text[0].isdigit()
        ):
            comma.kind = "DECIMAL_COMMA"


#: Tokens from an opening bracket to its closing one, at most; one further away belongs to another.
_FARTHEST = 400


def _join_brackets(tokens: list[Token], text: str) -> list[Token]:
    """Drops the line ends inside brackets; an open bracket never reaches past its block."""
    if "(" not in text:
        return tokens
    closed = _closed(tokens)
    joined: list[Token] = []
    depth = 0
    for index, token in enumerate(tokens):
        kind = token.kind
        if kind == "LPAR":
            depth += index in closed
        elif kind == "RPAR" and depth:
            depth -= 1
        if kind != "_NL" or not depth:
            joined.append(token)
    return joined


def _closed(tokens: list[Token]) -> set[int]:
    """The indices of the brackets that are closed before the block ends."""
    closed: set[int] = set()
    opened: list[int] = []
    for index, token in enumerate(tokens):
        kind = token.kind
        if kind == "LPAR":
            opened.append(index)
        elif kind == "RPAR" and opened:
            at = opened.pop()
            if index - at < _FARTHEST:
                closed.add(at)
        elif kind == "LBRACE" or kind == "RBRACE":
            opened.clear()
    return closed


class _Recovery:
    """Goes on after an error: inserts a line end where that mends it, else skips the entry."""

    def __init__(self, source: Source, report: Report) -> None:
        self.source = source
        self.report = report

    def __call__(self, machine: Machine, token: Token) -> bool:
        top = machine.values[-1] if machine.values else None
        if isinstance(top, _Phrase) and top.broken:
            # What follows on the line of an error told already.
            top.end = token.end
            return False
        if isinstance(top, Token) and top.kind == "RBRACE":
            return self._after_block(machine, token)
        self._skip_phrase(machine, token)
        return token.kind in _ENDS_PHRASE

    def _after_block(self, machine: Machine, token: Token) -> bool:
        self._say(
            MISSING_LINE_BREAK,
            f"{_shown(token)} follows a block on the same line",
            token,
            "begin a new line after }",
        )
        machine.feed(Token("_NL", "", token.start, token.start))
        return True

    def _skip_phrase(self, machine: Machine, token: Token) -> None:
        """Takes what stands of the entry off the stack and puts a broken phrase in its place."""
        if not enough_told(self.report, self.source, token.start, max(token.end, token.start)):
            self._explain(machine, token)
        items: list[Item] = []
        while not machine.accepts("phrase"):
            value = machine.values.pop()
            machine.states.pop()
            items = (value if isinstance(value, list) else [value]) + items
        start = items[0].start if items else token.start
        kept = [
            i for i in items if not isinstance(i, Token) or i.kind not in ("DOTS", "PLUS_MINUS")
        ]
        machine.goto("phrase", _Phrase(kept, start, max(start, token.start), broken=True))

    def _explain(self, machine: Machine, token: Token) -> None:
        before = machine.values[-1] if machine.values else None
        escape = _BAD_ESCAPE.match(token.text) if token.kind == "UNFINISHED" else None
        if escape is not None:
            self._say(
                UNFINISHED_TEXT,
                f"{escape.group(1)} is not an escape in a text",
                token,
                r"write \\ for a backslash",
            )
        elif token.kind == "UNFINISHED":
            inches = self.source.text[: token.start][-1:].isdigit()
            self._say(
                UNFINISHED_TEXT,
                "this text is not closed on its line",
                token,
                "write in for inches" if inches else 'close it with a double quote: "…"',
            )
        elif token.kind == "DECIMAL_COMMA":
            self._say(
                DECIMAL_COMMA,
                "there is a comma between two digits",
                token,
                "write a decimal point (25.4), or a blank after the comma of a list",
            )
        elif token.kind == "ILLEGAL":
            from hts.syntax.pasted import remedy  # wanted by messages only

            found = remedy(self.source.text, token.start)
            self._say(
                UNREADABLE_CHARACTER,
                f"{(found and found.sign) or _shown(token)} is not understood here",
                token,
                found.help if found else "remove it, or put the text in double quotes",
            )
        elif isinstance(before, Token) and before.kind in ("DOTS", "PLUS_MINUS"):
            what = "range" if before.kind == "DOTS" else "tolerance"
            example = "690 .. 720 degC" if what == "range" else "705 +/- 15 degC"
            self._say(
                UNEXPECTED_SIGN,
                f"this {what} has no value after {before.text}",
                before,
                f"write both parts, as in {example}",
            )
        elif token.kind == "LBRACE":
            self._say(
                UNEXPECTED_SIGN,
                "this { has no entry before it",
                token,
                "write what the block describes before the brace",
            )
        else:
            self._say(
                UNEXPECTED_SIGN,
                f"{_shown(token)} has no value before it",
                token,
                self._figure_before(token)
                or "write a value, as in 690 .. 720 degC or 705 +/- 15 degC",
            )

    def _figure_before(self, token: Token) -> str:
        """Help where the value before is a number with a letter for a digit: 69O .. 720 degC."""
        from hts.syntax.pasted import letters_for_digits  # wanted by messages only

        before = self.source.text[: token.start].split()
        return letters_for_digits(before[-1]) if before else ""

    def _say(self, kind: Kind, message: str, token: Token, help: str) -> None:
        end = max(token.end, token.start)
        self.report.add(
            Finding(kind, message, Label(self.source.span(token.start, end)), help=help)
        )


def _shown(token: Token) -> str:
    if token.kind == END:
        return "the end of the file"
    return repr(token.text[:20]) if token.text.isprintable() else f"U+{ord(token.text[0]):04X}"
