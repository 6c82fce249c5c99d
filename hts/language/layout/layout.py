"""The canonical text of a tree."""

from __future__ import annotations

from hts.language.layout.columns import align
from hts.language.layout.lines import Line, lines_of
from hts.language.layout.spelling import joined, spelled
from hts.syntax import Token, Tree
from hts.syntax.parser import tables

_STEP = "  "
_CONTINUED = "    "
_BEFORE_COMMENT = "  "


def laid_out(tree: Tree) -> str:
    """The text of a tree without errors in the one layout; its line ends are those of the first."""
    text = tree.source.text
    lines = lines_of(tree)
    for line in lines:
        line.text = joined(line.tokens)
        if not _reads_as(line.text, line.tokens):
            line.text = _as_written(text, line.tokens)
            line.fixed = True
    align(lines)
    written: list[str] = []
    for line in lines:
        if line.blank:
            written.append("")
        written.append(_written(line))
    first = text.find("\n")
    end = "\r\n" if first > 0 and text[first - 1] == "\r" else "\n"
    return "".join(line + end for line in written)


def _written(line: Line) -> str:
    indent = _STEP * line.depth + (_CONTINUED if line.continued else "")
    between = _BEFORE_COMMENT if line.text and line.comment else ""
    return f"{indent}{line.text}{between}{line.comment}"


def _reads_as(text: str, tokens: list[Token]) -> bool:
    """Whether the text is read as these tokens. `6 t/2` is not, once blanks part the stroke: then
    `6 t` is a multiple of the wall."""
    read = list(tables().tokens(text))
    return [t.kind for t in read] == [t.kind for t in tokens] and list(map(spelled, read)) == list(
        map(spelled, tokens)
    )


def _as_written(text: str, tokens: list[Token]) -> str:
    last = tokens[-1]
    # A comma holds the line end behind it.
    end = last.start + 1 if last.kind == "COMMA" else last.end
    return text[tokens[0].start : end]
