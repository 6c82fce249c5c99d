"""A text as an editor holds it, and the way between its lines and columns and offsets.

Editors count columns in the units of an encoding they agree on with the server (UTF-8, UTF-16 or
UTF-32); a line ends with LF, CR LF or CR. Offsets count code points of the text without a byte
order mark, as everywhere else in the program.
"""

from __future__ import annotations

import os
import re
from bisect import bisect_right
from urllib.parse import unquote, urlsplit

from hts.base.text import BYTE_ORDER_MARK, Source
from hts.base.text.reading import LARGEST, name_below
from hts.editor.place import Text

UTF8, UTF16, UTF32 = "utf-8", "utf-16", "utf-32"
_LINE_END = re.compile(r"\r\n|\r|\n")


class Lines:
    """The lines of a text, with positions in the units of one encoding; lines and columns count
    from 0."""

    __slots__ = ("encoding", "starts", "text")

    def __init__(self, text: str, encoding: str) -> None:
        self.text = text
        self.encoding = encoding
        self.starts = [0, *(found.end() for found in _LINE_END.finditer(text))]

    def offset(self, line: int, column: int) -> int:
        """Offset of a position; one past the end of a line or of the text counts as that end."""
        if line < 0:
            return 0
        if line >= len(self.starts):
            return len(self.text)
        start = self.starts[line]
        content = self._content(line)
        if self.encoding == UTF32 or content.isascii():
            return start + max(0, min(column, len(content)))
        units = 0
        for at, letter in enumerate(content):
            if units >= column:
                return start + at
            units += _units(letter, self.encoding)
        return start + len(content)

    def position(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset."""
        offset = max(0, min(offset, len(self.text)))
        line = bisect_right(self.starts, offset) - 1
        before = self.text[self.starts[line] : offset]
        if self.encoding == UTF32 or before.isascii():
            return line, len(before)
        return line, sum(_units(letter, self.encoding) for letter in before)

    def _content(self, line: int) -> str:
        end = self.starts[line + 1] if line + 1 < len(self.starts) else len(self.text)
        return self.text[self.starts[line] : end].rstrip("\r\n")


def _units(letter: str, encoding: str) -> int:
    code = ord(letter)
    if encoding == UTF16:
        return 1 + (code > 0xFFFF)
    return 1 + (code > 0x7F) + (code > 0x7FF) + (code > 0xFFFF)


class Buffer:
    """A text that is open in an editor; ``version`` is the editor's count of its changes.

    ``text`` is without a byte order mark; ``mark`` is its length, 1 where there is one, since the
    editor counts it on the first line.
    """

    __slots__ = ("_lines", "_placed", "encoding", "name", "path", "uri", "version", "whole")

    def __init__(self, uri: str, text: str, version: int, encoding: str, root: str = "") -> None:
        self.uri = uri
        self.version = version
        self.encoding = encoding
        self.whole = text
        self.path = path_of(uri)
        self.name = name_for(uri, self.path, root)
        self._lines: Lines | None = None
        self._placed: Text | None = None

    @property
    def mark(self) -> int:
        return int(self.whole.startswith(BYTE_ORDER_MARK))

    @property
    def text(self) -> str:
        """The text; nothing of one that is larger than any specification."""
        return "" if self.too_large else self.whole[self.mark :]

    @property
    def too_large(self) -> bool:
        """Whether it is larger than what `hts check` reads."""
        return len(self.whole) > LARGEST

    @property
    def lines(self) -> Lines:
        if self._lines is None:
            self._lines = Lines(self.whole, self.encoding)
        return self._lines

    @property
    def placed(self) -> Text:
        """The text with what stands in it; read once for each version."""
        if self._placed is None:
            self._placed = Text(Source(self.text, self.name, self.path))
        return self._placed

    def change(self, text: str, start: tuple[int, int] | None, end: tuple[int, int] | None) -> None:
        """Puts ``text`` in place of what lies between two positions; of all, without them."""
        if start is None or end is None:
            self.whole = text
        else:
            lines = self.lines
            first, last = lines.offset(*start), lines.offset(*end)
            self.whole = self.whole[:first] + text + self.whole[max(first, last) :]
        self._lines = self._placed = None

    def offset(self, line: int, column: int) -> int:
        """Offset in `text` of a position of the editor."""
        return max(0, self.lines.offset(line, column) - self.mark)

    def position(self, offset: int) -> tuple[int, int]:
        """Position in the editor of an offset in `text`."""
        return self.lines.position(offset + self.mark)


def path_of(uri: str) -> str | None:
    """The path of a file address, None for a text that is no file.

    `file:///c%3A/x`, `file:///C:/x` and `file:///c:/x` are one file.
    """
    parts = urlsplit(uri)
    if parts.scheme != "file":
        return None
    path = unquote(parts.path)
    if re.match(r"/[A-Za-z]:", path):
        path = path[1].upper() + path[2:]
    elif parts.netloc and parts.netloc != "localhost":
        path = f"//{parts.netloc}{path}"
    return path.replace("/", os.sep)


def uri_of(path: str) -> str:
    """The address of a file, as editors write it."""
    from pathlib import PurePosixPath, PureWindowsPath

    if re.match(r"[A-Za-z]:", path) or path.startswith("\\\\"):
        return PureWindowsPath(path).as_uri()
    return PurePosixPath(path).as_uri()


def name_for(uri: str, path: str | None, root: str) -> str:
    """What findings call a text: its path from the root, or what the editor calls it."""
    if path is None:
        return unquote(urlsplit(uri).path).rsplit("/", 1)[-1] or "text"
    return name_below(os.path.realpath(path), root) if root else path
