"""Mends braces before parsing, so that one forgotten brace is one finding.

Layout tells where a brace was meant: a block's entries stand further right than its first line and
its closing brace stands under it. The mending only runs on texts whose braces do not match.
"""

from __future__ import annotations

from hts.base.findings import Finding, Label, Report
from hts.base.text import Source
from hts.syntax.lalr import Token
from hts.syntax.syntax_errors import (
    BRACE_ON_OWN_LINE,
    MISSING_OPENING_BRACE,
    STRAY_CLOSING_BRACE,
    TOO_DEEP,
    UNCLOSED_BLOCK,
)

#: No entry of the language nests deeper than four blocks.
DEEPEST = 12

#: Braces mended one by one. Each needs a walk over the text, so that there must be an end to it.
MOST = 50


def join_lone_braces(source: Source, tokens: list[Token], report: Report) -> list[Token]:
    """Takes an opening brace at the start of a line to the entry before it."""
    joined: list[Token] = []
    for token in tokens:
        alone = token.kind == "LBRACE" and len(joined) >= 2 and joined[-1].kind == "_NL"
        if alone and joined[-2].kind not in ("LBRACE", "RBRACE"):
            joined.pop()
            report.add(
                Finding(
                    BRACE_ON_OWN_LINE,
                    "this { stands on its own line, so the entry before it has no block",
                    Label(source.span(token.start, token.end)),
                    help="move { to the end of the line before",
                )
            )
        joined.append(token)
    return joined


def balance(source: Source, tokens: list[Token], report: Report) -> list[Token]:
    """The tokens with every missing brace put in and every stray one left out."""
    if _balanced(tokens):
        return tokens
    return _Mender(source, tokens, report).mended()


def _balanced(tokens: list[Token]) -> bool:
    depth = 0
    for token in tokens:
        kind = token.kind
        if kind == "LBRACE":
            depth += 1
            if depth > DEEPEST:
                return False
        elif kind == "RBRACE":
            depth -= 1
            if depth < 0:
                return False
    return depth == 0


class _Line:
    """A line of tokens: ``first`` indexes its first token, ``indent`` is its column."""

    __slots__ = ("first", "indent")

    def __init__(self, first: int, indent: int) -> None:
        self.first = first
        self.indent = indent


class _Mender:
    def __init__(self, source: Source, tokens: list[Token], report: Report) -> None:
        self.source = source
        self.report = report
        self.tokens = list(tokens)

    def mended(self) -> list[Token]:
        """Mends one brace at a time; each round makes the text balanced for longer."""
        for _ in range(MOST):
            opened: list[tuple[int, _Line]] = []
            suspect: tuple[int, int, _Line] | None = None
            line = _Line(0, 1)
            begins_line = True
            for index, token in enumerate(self.tokens):
                if token.kind == "_NL":
                    begins_line = True
                    continue
                if begins_line:
                    line = _Line(index, self.source.column(token.start))
                if token.kind == "LBRACE":
                    if len(opened) >= DEEPEST:
                        return self._cut(index)
                    opened.append((index, line))
                elif token.kind == "RBRACE":
                    if not opened:
                        self._unmatched(index, line, suspect)
                        break
                    at, opener = opened.pop()
                    if begins_line and line.indent != opener.indent and suspect is None:
                        suspect = (index, at, opener)
                begins_line = False
            else:
                if not opened:
                    return self.tokens
                self._unclosed(opened, suspect)
        return self._matched()

    def _matched(self) -> list[Token]:
        """The tokens with the rest of the braces mended in one walk, whatever the layout tells.

        Nothing more is said: the findings there are cover more than anybody mends at once.
        """
        kept: list[Token] = []
        depth = 0
        for token in self.tokens:
            kind = token.kind
            if kind == "_NL" and kept and kept[-1].kind == "_NL":
                continue
            if kind == "LBRACE":
                if depth == DEEPEST:
                    self.tokens = [*kept, token]
                    return self._cut(len(kept))
                depth += 1
            elif kind == "RBRACE":
                if not depth:
                    continue
                depth -= 1
            kept.append(token)
        end = len(self.source.text)
        return kept + [Token("RBRACE", "", end, end)] * depth

    def _unmatched(self, index: int, line: _Line, suspect: tuple[int, int, _Line] | None) -> None:
        # A brace that closed a block of another indent tells more than the one left over.
        for at in ([suspect[0]] if suspect else []) + [index]:
            owner = self._owner_without_brace(at)
            if owner is not None:
                begin, end = owner
                first, last = self.tokens[begin], self.tokens[end - 1]
                self._say(
                    MISSING_OPENING_BRACE,
                    f"the block of {first.text!r} is closed but never opened",
                    last.end,
                    last.end,
                    f"write {{ after {last.text}",
                )
                self.tokens.insert(end, Token("LBRACE", "", last.end, last.end))
                return
        token = self.tokens[index]
        self._say(
            STRAY_CLOSING_BRACE,
            "this } closes nothing",
            token.start,
            token.end,
            "remove it, or look for a block closed too early above",
        )
        del self.tokens[index]
        around = self.tokens[max(0, index - 1) : index + 1]
        if len(around) == 2 and around[0].kind == around[1].kind == "_NL":
            del self.tokens[index]

    def _owner_without_brace(self, close: int) -> tuple[int, int] | None:
        """First and past-the-last token of the line above that should have opened a block."""
        indent = self.source.column(self.tokens[close].start)
        end = close
        deeper = False
        while end > 0:
            begin = end
            while begin > 0 and self.tokens[begin - 1].kind != "_NL":
                begin -= 1
            if begin < end:
                column = self.source.column(self.tokens[begin].start)
                if column <= indent and end != close:
                    first = self.tokens[begin].kind
                    opens = any(t.kind in ("LBRACE", "RBRACE") for t in self.tokens[begin:end])
                    return (begin, end) if deeper and first == "WORD" and not opens else None
                deeper = deeper or (column > indent)
            end = begin - 1
        return None

    def _unclosed(
        self, opened: list[tuple[int, _Line]], suspect: tuple[int, int, _Line] | None
    ) -> None:
        if (
            suspect is not None
            and self.source.column(self.tokens[suspect[0]].start) < suspect[2].indent
        ):
            close_at, at, line = suspect
        else:
            at, line = opened[-1]
            close_at = self._outdent_after(at, line.indent)
        brace, first = self.tokens[at], self.tokens[line.first]
        self._say(
            UNCLOSED_BLOCK,
            f"the block of {first.text!r} is never closed",
            brace.start,
            brace.end,
            "write } on a line of its own where the block ends",
        )
        place = self.tokens[close_at - 1].end if close_at else 0
        if close_at > 0 and self.tokens[close_at - 1].kind == "_NL":
            # Close before the line end, which then ends the entry as it should.
            close_at -= 1
            place = self.tokens[close_at].start
        self.tokens.insert(close_at, Token("RBRACE", "", place, place))

    def _outdent_after(self, at: int, indent: int) -> int:
        """First token of the first line after ``at`` that no longer stands inside the block."""
        begins_line = False
        for index in range(at + 1, len(self.tokens)):
            token = self.tokens[index]
            if token.kind == "_NL":
                begins_line = True
            elif begins_line:
                if self.source.column(token.start) <= indent:
                    return index
                begins_line = False
        return len(self.tokens)

    def _cut(self, index: int) -> list[Token]:
        token = self.tokens[index]
        self._say(
            TOO_DEEP,
            f"blocks are nested deeper than {DEEPEST}",
            token.start,
            token.end,
            "close the blocks above; the rest of the file was not read",
        )
        kept = self.tokens[:index]
        depth = 0
        for before in kept:
            depth += (before.kind == "LBRACE") - (before.kind == "RBRACE")
        while kept and kept[-1].kind == "_NL":
            kept.pop()
        return kept + [Token("RBRACE", "", token.start, token.start)] * depth

    def _say(self, kind: object, message: str, start: int, end: int, help: str) -> None:
        self.report.add(
            Finding(kind, message, Label(self.source.span(start, end)), help=help)  # type: ignore[arg-type]
        )
