"""The block of a weld list proposed from the heads of its table.

It is a proposal and nothing more: every column is `not used`, with what it might be in a remark,
until somebody who knows the table confirms it.
"""

from __future__ import annotations

import os
import re

from hts.base.quantities import LENGTH
from hts.base.text import BYTE_ORDER_MARK, Source
from hts.language.rows.cells import unit_of
from hts.language.vocabulary.hidden import HIDDEN
from hts.language.vocabulary.weld_list import SEPARATORS
from hts.syntax.table import Table, read_table, rows_above

#: What heads of weld lists are commonly called, and what such a column may lead to: common
#: practice, no source.
_HEADS = (
    (r"weld|joint|fw ?no|seam", "weld"),
    (r"typical|type|detail", "like"),
    (r"line", "line"),
    (r"iso|drawing|dwg", "drawing"),
    (r"rev", "drawing revision"),
    (r"spool", "spool"),
    (r"\bdn\b", "pipe DN"),
    (r"size|nps|\bnb\b|dia", "pipe NPS"),
    (r"sch", "pipe schedule"),
    (r"\bod\b|outside", "pipe outside diameter"),
    (r"wt|wall|thk|thick", "wall measured"),
    (r"shop|field|made|location", "made in"),
    (r"service|fluid", "service"),
    (r"wps", "welding"),
    (r"pqr|wpqr", "qualified"),
    (r"cap|width", "cap width"),
)
_DECIMAL_COMMA = re.compile(r"\d+,\d+")
_DECIMAL_POINT = re.compile(r"\d+\.\d+")
#: Heads stand above the welds, within so many rows.
_LOOKED_AT = 20
_FIGURE = re.compile(r"[\d.,]+")
_LENGTHS = ("wall measured", "cap width", "pipe outside diameter")


class CannotPropose(Exception):
    """A table nothing can be proposed for; the message says why."""


def proposed(text: str, path: str) -> str:
    """The block for a table. ``path`` is how the specification names it. Raises CannotPropose."""
    table, separator = _read(text.removeprefix(BYTE_ORDER_MARK))
    name = re.sub(r"[^A-Za-z0-9]+", "-", os.path.splitext(os.path.basename(path))[0]).strip("-")
    name = name if name[:1].isalpha() else f"list-{name}".rstrip("-")
    uses = [_use(head.text) for head in table.heads]
    comma = _has_commas(table, separator)
    lines = [f'weld list {name} from "{_quoted(path)}" {{']
    key = uses.index("weld") if "weld" in uses else 0
    lines.append(f'  weld in "{_quoted(table.heads[key].text)}"')
    if "like" in uses:
        lines.append(f'  like in "{_quoted(table.heads[uses.index("like")].text)}"')
    else:
        lines.append(
            "  # like NAME of a typical joint in a used file, or: like in the column naming it"
        )
    lines.append(f"  rows {len(table.rows)}")
    if separator != "comma" or comma:
        decimal = ", decimal comma" if comma else ""
        lines.append(f"  separator {separator}{decimal}")
    for head, use in zip(table.heads, uses, strict=True):
        if not head.text or use == "like" or head is table.heads[key]:
            continue
        may = f"  # perhaps: {use}{_unit(head.text, use)}" if use else ""
        lines.append(f'  column "{_quoted(head.text)}" not used{may}')
    return "\n".join([*lines, "}"]) + "\n"


def _read(text: str) -> tuple[Table, str]:
    """The table by the separator that gives it most columns, and the name of that."""
    _refuse_title(text)
    tables = {word: read_table(Source(text, "table"), sign) for word, sign in SEPARATORS.items()}
    best = max(tables, key=lambda word: (not tables[word].misforms, len(tables[word].heads)))
    table = tables[best]
    if table.misforms:
        first = table.misforms[0]
        line = Source(text, "table").position(first.start)[0]
        raise CannotPropose(f"line {line}: {first.message}; {first.help}")
    if any('"' in head.text and "\n" in head.text for head in table.heads):
        raise CannotPropose("its first row does not hold heads")
    return table, best


def _refuse_title(text: str) -> None:
    """Raises CannotPropose where a title stands above the heads, whatever parts the cells."""
    for sign in SEPARATORS.values():
        filled = [[cell for cell in row if cell.text] for row in rows_above(text, sign, _LOOKED_AT)]
        heads = next((n for n, cells in enumerate(filled) if len(cells) > 2), 0)
        # A row of figures is a weld: what stands above it are heads, however few. Above heads
        # stands a title, be it with a revision or a project beside it.
        if heads and not any(_FIGURE.fullmatch(cell.text) for cell in filled[heads]):
            line = Source(text, "table").position(filled[heads][0].start)[0]
            raise CannotPropose(
                f"the first line is a title: take all above line {line} out, where the heads stand"
            )


def _use(head: str) -> str:
    """What a column may lead to, "" where its head does not tell."""
    plain = head.casefold().replace("_", " ")
    return next((use for pattern, use in _HEADS if re.search(pattern, plain)), "")


def _unit(head: str, use: str) -> str:
    """The unit to say where the head has it in round brackets only."""
    if use not in _LENGTHS:
        return ""
    written, square = unit_of(head, LENGTH)
    if square:
        return ""
    return f" in {written}" if written else " in mm, or in inches?"


def _has_commas(table: Table, separator: str) -> bool:
    cells = [cell.text for row in table.rows for cell in row]
    commas = any(_DECIMAL_COMMA.fullmatch(cell) for cell in cells)
    points = any(_DECIMAL_POINT.fullmatch(cell) for cell in cells)
    return separator != "comma" and commas and not points


def _quoted(text: str) -> str:
    """As inside the quotes of a text; a head with a line break cannot be written in one."""
    if re.search(r"[\r\n]", text):
        raise CannotPropose(f"the head {text!r} has a line break: write it on one line")
    hidden = next((character for character in text if character in HIDDEN), "")
    if hidden:
        raise CannotPropose(
            f"the head {text!a} holds the character U+{ord(hidden):04X}, which cannot be seen when "
            "the table is read: remove it there"
        )
    return text.replace("\\", "\\\\").replace('"', '\\"')
