"""Takes a tree apart into the lines it is laid out on.

A line is broken where an entry or a block begins or ends, and where the author went on after a
comma or inside brackets; nowhere else.
"""

from __future__ import annotations

from hts.syntax import Token, Tree


class Line:
    """Tokens, or a comment, or tokens and the comment behind them."""

    __slots__ = ("blank", "comment", "continued", "depth", "fixed", "text", "tokens")

    def __init__(self, depth: int, continued: bool = False, blank: bool = False) -> None:
        self.tokens: list[Token] = []
        self.comment = ""
        #: Blocks around the line.
        self.depth = depth
        #: Whether it goes on with the entry of the line before.
        self.continued = continued
        #: Whether a blank line stands before it.
        self.blank = blank
        #: The tokens as they are written, without indent and comment.
        self.text = ""
        #: Whether its blanks say something, so that it must keep them.
        self.fixed = False

    @property
    def opens(self) -> bool:
        return bool(self.tokens) and self.tokens[-1].kind == "LBRACE"

    @property
    def closes(self) -> bool:
        return bool(self.tokens) and self.tokens[0].kind == "RBRACE"


def lines_of(tree: Tree) -> list[Line]:
    """The lines of a tree without errors, with the blank lines that stay."""
    return _LineCollector(tree).lines


class _LineCollector:
    def __init__(self, tree: Tree) -> None:
        self.lines: list[Line] = []
        self.depth = 0
        #: Whether a blank line stands in the text before what comes next.
        self.blank = False
        #: Whether the next line may have a blank line before it: not first in file or block.
        self.may_part = False
        #: Whether it must: it follows a block at top level.
        self.must_part = False
        #: First line of the entry being read.
        self.entry = 0
        text = tree.source.text
        at = 0
        before: Token | None = None
        ended = True
        for token in tree.tokens:
            if token.kind == "_NL":
                ended = True
                continue
            ended = ended or token.kind == "RBRACE"
            self._gap(text[at : token.start], before, ended)
            self._token(token, ended, "\n" in text[at : token.start])
            # A comma holds the line end and the comments behind it.
            at = token.start + 1 if token.kind == "COMMA" else token.end
            ended = token.kind == "LBRACE"
            before = token
        self._gap(text[at:], before, True)

    def _gap(self, gap: str, before: Token | None, ended: bool) -> None:
        """The comments and blank lines between two tokens."""
        behind, *own = gap.split("\n")
        if before is None:
            own.insert(0, behind)
        elif "#" in behind:
            self.lines[-1].comment = _comment(behind)
        # What follows the last line end is the indent of the next token.
        *whole, rest = own or [""]
        self.blank = False
        for piece in (*whole, rest) if "#" in rest else whole:
            if "#" in piece:
                self._begin(Line(self.depth, continued=not ended))
                self.lines[-1].comment = _comment(piece)
            else:
                self.blank = True

    def _token(self, token: Token, ended: bool, broken: bool) -> None:
        if token.kind == "RBRACE":
            self.depth -= 1
            self.lines.append(Line(self.depth))
            self.may_part = True
            self.must_part = self.depth == 0
        elif ended:
            self._begin(Line(self.depth))
            self.entry = len(self.lines) - 1
        elif broken:
            self.lines.append(Line(self.depth, continued=True))
        self.lines[-1].tokens.append(token)
        if token.kind == "LBRACE":
            if self.depth == 0:
                self._part_from_above()
            self.depth += 1
            self.may_part = False

    def _begin(self, line: Line) -> None:
        """Adds a line that may have a blank line before it."""
        if not line.continued:
            line.blank = self.must_part or (self.blank and self.may_part)
            self.must_part = self.blank = False
            self.may_part = True
        self.lines.append(line)

    def _part_from_above(self) -> None:
        """Sets a block at top level apart, together with the comment that stands on it."""
        first = self.entry
        while first > 0 and not self.lines[first].blank and not self.lines[first - 1].tokens:
            first -= 1
        if first > 0:
            self.lines[first].blank = True


def _comment(piece: str) -> str:
    return piece[piece.index("#") :].rstrip(" \t\r")
