"""The entries of a text and how they lie in each other, told by braces, line ends and columns.

A text in the midst of writing has braces missing, so none is relied on: an entry of the whole file
at the beginning of a line ends every block, and a closing brace ends the block that began in its
column.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.text import Source
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.spec import File

#: What ends an entry, and what hides such a sign.
_SIGN = re.compile(
    r'"(?:[^"\\\n\r]|\\.)*"?|\#[^\n]*|(?P<on>,(?:[ \t]*(?:\#[^\n]*)?\r?\n)+)|(?P<sign>[(){}\n])',
    re.X,
)
_SHUT = re.compile(r"[){}]")
_WORDS = re.compile(r"[^\s#{}]+")
#: No entry of the language lies deeper; what does is kept flat.
_DEEPEST = 40
_TOP = frozenset(word for word in File.children)


class Line:
    """An entry: ``text[start:end]`` is its phrase, ``close`` the end of its block if it has one.

    ``parent`` is the entry it lies in, None at the top.
    """

    __slots__ = ("block", "close", "column", "end", "inner", "open", "parent", "start")

    def __init__(self, start: int, end: int, parent: Line | None, column: int) -> None:
        self.start = start
        self.end = end
        self.parent = parent
        self.column = column
        #: Where the block begins and ends, braces included; None where it has none.
        self.open: int | None = None
        self.close: int | None = None
        self.inner: list[Line] = []
        #: What block it stands in: filled in by whoever knows the vocabulary.
        self.block: type[Entry] | None = None

    @property
    def whole_end(self) -> int:
        """Where the entry ends, its block included."""
        return self.close if self.close is not None else self.end


class Outline:
    """``top`` are the entries of the file, ``lines`` all entries in the order of the text."""

    __slots__ = ("lines", "source", "top")

    def __init__(self, source: Source) -> None:
        self.source = source
        self.top: list[Line] = []
        self.lines: list[Line] = []
        _Scan(self).run()

    def block_at(self, offset: int) -> Line | None:
        """The innermost entry whose block an offset lies in."""
        found: Line | None = None
        for line in self.lines:
            if line.start > offset:
                break
            if line.open is not None and line.open < offset:
                shut = line.close is not None and offset >= line.close
                if not shut:
                    found = line
        return found

    def line_at(self, offset: int) -> Line | None:
        """The entry whose phrase an offset lies in or ends."""
        low, high = 0, len(self.lines)
        while low < high:
            middle = (low + high) // 2
            if self.lines[middle].start <= offset:
                low = middle + 1
            else:
                high = middle
        if low and offset <= self.lines[low - 1].end:
            return self.lines[low - 1]
        return None


class _Scan:
    """One walk over a text."""

    def __init__(self, outline: Outline) -> None:
        self.outline = outline
        self.text = outline.source.text
        self.opened: list[Line] = []
        #: Blocks that were opened below the deepest that is kept.
        self.beyond = 0
        #: The entry that the last line end closed: a brace on the line below is its block.
        self.last: Line | None = None

    def run(self) -> None:
        text = self.text
        begun = depth = 0
        for found in _SIGN.finditer(text):
            sign = found["sign"]
            if sign is None:
                continue
            at = found.start()
            if sign == "(":
                depth += 1
            elif sign == ")":
                depth = max(0, depth - 1)
            elif sign == "\n":
                if depth and self._goes_on(at):
                    continue
                depth = 0
                self._phrase(begun, at)
                begun = at + 1
            else:
                depth = 0
                line = self._phrase(begun, at)
                begun = at + 1
                if sign == "{":
                    self._open(line or self.last, at)
                else:
                    self._close(at, line)
        self._phrase(begun, len(text))
        for line in self.opened:
            line.close = None

    def _goes_on(self, at: int) -> bool:
        """Whether an open bracket is closed before a brace."""
        found = _SHUT.search(self.text, at)
        return found is not None and found[0] == ")"

    def _phrase(self, start: int, end: int) -> Line | None:
        """The entry in a piece of the text, None where there is none."""
        piece = self.text[start:end]
        begins = _first(piece)
        if begins is None:
            return None
        start += begins
        end = start + _length(self.text[start:end])
        column = self.outline.source.column(start)
        word = _WORDS.match(self.text, start)
        if self.opened and column == 1 and word is not None and word[0] in _TOP:
            self.opened.clear()
            self.beyond = 0
        parent = self.opened[-1] if self.opened else None
        line = Line(start, end, parent, column)
        (parent.inner if parent else self.outline.top).append(line)
        self.outline.lines.append(line)
        self.last = line
        return line

    def _open(self, line: Line | None, at: int) -> None:
        if len(self.opened) >= _DEEPEST:
            self.beyond += 1
            return
        if line is None or line.open is not None:
            # A brace that nothing stands before: its block belongs to nothing.
            parent = self.opened[-1] if self.opened else None
            line = Line(at, at, parent, self.outline.source.column(at))
            (parent.inner if parent else self.outline.top).append(line)
            self.outline.lines.append(line)
        line.open = at
        self.opened.append(line)
        self.last = None

    def _close(self, at: int, before: Line | None) -> None:
        self.last = None
        if self.beyond:
            self.beyond -= 1
            return
        if not self.opened:
            return
        if before is None and self._alone(at):
            column = self.outline.source.column(at)
            # Blocks that began further right than this brace were left open.
            while len(self.opened) > 1 and self.opened[-1].column > column:
                self.opened.pop()
        self.opened.pop().close = at + 1

    def _alone(self, at: int) -> bool:
        """Whether nothing stands before a sign on its line."""
        begins = self.text.rfind("\n", 0, at) + 1
        return not self.text[begins:at].strip()


_BLANK = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_ENDS = re.compile(r'"(?:[^"\\\n\r]|\\.)*"?|#[^\n]*|[^\s#"]+')


def _first(piece: str) -> int | None:
    """Where a piece begins that is neither blank nor comment."""
    if "#" not in piece:
        bare = piece.lstrip(" \t\r\n")
        return len(piece) - len(bare) if bare else None
    found = _BLANK.match(piece)
    at = found.end() if found else 0
    return at if at < len(piece) else None


def _length(piece: str) -> int:
    """The length of a piece without the blanks and comments behind it."""
    if "#" not in piece:
        return len(piece.rstrip())
    end = 0
    for found in _ENDS.finditer(piece):
        if found[0][0] != "#":
            end = found.end()
    return end


def chain(line: Line) -> Iterator[Line]:
    """An entry and those it lies in, from the inside out."""
    at: Line | None = line
    while at is not None:
        yield at
        at = at.parent
