"""The text of a cell as items of the language, or what is wrong with it."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from hts.base.findings import Report
from hts.base.quantities import Dimension, find_unit
from hts.base.quantities.units import standard_symbol
from hts.base.text import Source
from hts.language.rows.spreadsheet import (
    Unclear,
    changed_by_spreadsheet,
    no_plain_number,
    spoiled_by_spreadsheet,
)
from hts.language.vocabulary.column import Lead
from hts.language.vocabulary.hidden import HIDDEN
from hts.language.vocabulary.mistakes import HIDDEN_CHARACTER
from hts.language.vocabulary.types import Choice, Day, Text
from hts.syntax import parse
from hts.syntax.lalr import Token
from hts.syntax.tree import Group, Item

#: What people write where they do not know yet. An x for "yes" is nothing an entry takes either.
_PLACEHOLDER = re.compile(
    r"(?i)(?:tb[acd]|t\.b\.[acd]\.?|n/?a|n\.a\.?|nil|none|null|unknown|later|pending|hold|"
    r"[?]+|x{2,}|[-–—_.*]+)"
)
#: What people write for the cell above; once the table is sorted, another cell stands there.
_DITTO = re.compile(r"(?i)(?:ditto|do\.?|same|as above|[\"\u2033\u3003\u201c\u201d]|''|-[\"'-]+-)")
#: Nominal sizes are numbers, and yet belong to a unit that a head may name.
UNIT_OF_SIZE = {"nps": "in", "dn": "mm"}
_COMMA = re.compile(r"(?<=\d),(?=\d)")
_POINT = re.compile(r"\d\.\d")
#: Signs that would end a value, or begin something else.
_FOREIGN = re.compile(r'[#{}"]')


class Read(NamedTuple):
    """A cell as the language has it: its text, and its items with offsets in that text."""

    text: str
    items: tuple[Item, ...]


def read_cell(text: str, lead: Lead, unit: str, decimal_comma: bool) -> Read | Unclear:
    """The items of a cell that is not blank. ``unit``: that of the column, "" where it has none."""
    # What stands for nothing elsewhere may be a choice here, as in `draught none`.
    chosen = isinstance(lead.field.type, Choice) and text in lead.field.type.choices
    unclear = None if chosen else unclear_anywhere(text)
    if unclear is not None:
        return unclear
    if isinstance(lead.field.type, Text):
        written = '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
        return Read(written, (Token("TEXT", written, 0, len(written)),))
    unclear = changed_by_spreadsheet(text, isinstance(lead.field.type, Day))
    if unclear is not None:
        return unclear
    if lead.dimension is not None or lead.field.name in UNIT_OF_SIZE:
        dressed = no_plain_number(text, lead.dimension, unit)
        if dressed is not None:
            return dressed
    foreign = _FOREIGN.search(text)
    if foreign is not None:
        return Unclear(
            f"{foreign[0]} is not part of {_wanted(lead)}",
            f"write the value alone{_example(lead)}",
        )
    if decimal_comma:
        if _POINT.search(text) and lead.dimension is not None:
            return Unclear(
                f"{text!r} has a point in a table with decimal commas",
                "write it with a comma, and nothing between thousands",
            )
        text = _COMMA.sub(".", text)
    elif _COMMA.search(text):
        return Unclear(
            f"{text!r} has a comma between two digits",
            "say `decimal comma` after the separator if the whole table has them, or write a point",
        )
    return _items(text, lead, unit)


def unclear_anywhere(text: str) -> Unclear | None:
    """What makes any cell unclear, whatever it is read for."""
    placeholder = _PLACEHOLDER.fullmatch(text)
    spoiled = None if placeholder or _DITTO.fullmatch(text) else spoiled_by_spreadsheet(text)
    if spoiled is not None:
        return spoiled
    if _DITTO.fullmatch(text):
        return Unclear(
            f"{text!r} stands for the cell above, which is another once the table is sorted",
            "write the value itself",
        )
    if placeholder:
        return Unclear(
            f"{text!r} stands for something that is not known",
            f'find it out, or say `blank "{text}"` if such a cell says nothing',
        )
    return hidden_in(text)


def hidden_in(text: str) -> Unclear | None:
    """Tells a character of a cell that nobody sees."""
    hidden = next((letter for letter in text if letter in HIDDEN or letter == "\t"), None)
    if hidden is not None:
        return Unclear(
            f"the character U+{ord(hidden):04X} cannot be seen when the text is read",
            "remove it",
            HIDDEN_CHARACTER,
        )
    return None


def shifted(item: Item, by: int) -> Item:
    """An item whose offsets begin later in a text."""
    if isinstance(item, Group):
        low: Any = shifted(item.low, by) if item.low is not None else None
        high: Any = shifted(item.high, by)
        sign = Token("", "", item.start + by, item.start + by)
        return Group(item.kind, low, sign, high)
    return Token(item.kind, item.text, item.start + by, item.end + by)


def _items(text: str, lead: Lead, unit: str) -> Read | Unclear:
    report = Report()
    tree = parse(Source(text, ""), report)
    if report.findings:
        first = report.findings[0]
        return Unclear(first.message, first.help or first.kind.fix, first.kind)
    if len(tree.entries) != 1 or tree.entries[0].block is not None:
        return Unclear(f"{text!r} is not {_wanted(lead)}", _example(lead).strip())
    items = tree.entries[0].items
    dimension = lead.dimension
    if not unit or dimension is None:
        return Read(text, tuple(items))
    theirs = [symbol for token in _quantities(items) for symbol in _units(token.text)]
    if theirs:
        ours = standard_symbol(unit)
        other = next((symbol for symbol in theirs if standard_symbol(symbol) != ours), None)
        if other is not None:
            return Unclear(
                f"the cell says {other!r} and its column {unit!r}",
                f"write it in {unit}, without the unit",
            )
        return Read(text, tuple(items))
    return _with_unit(text, items, unit, dimension)


def _with_unit(text: str, items: list[Item], unit: str, dimension: Dimension) -> Read | Unclear:
    """The items, each number with the unit of the column. The unit goes behind the last number: one
    part of a range lends it to the other."""
    last = [item.high if isinstance(item, Group) else item for item in items]
    number = next((n for n in reversed(range(len(last))) if last[n].kind == "NUMBER"), None)
    numbers = sum(item.kind == "NUMBER" for item in items)
    follows = [each.kind for each in last[number + 1 :]] if number is not None else []
    if numbers > 1 or any(kind != "WORD" for kind in follows):
        return Unclear(
            f"{text!r} is more than one number"
            if numbers > 1
            else f"{text!r} is not a number alone",
            f"write the number alone; the column is in {unit}",
        )
    # What follows the number may be a unit misspelled, but for the words of a width.
    if number is None or (last[number + 1 :] and last[number + 1].text not in ("total", "each")):
        return Read(text, tuple(items))
    token = last[number]
    written = f"{text[: token.end]} {unit}{text[token.end :]}"
    tree = parse(Source(written, ""), Report())
    return Read(written, tuple(tree.entries[0].items))


def _quantities(items: list[Item]) -> list[Token]:
    found: list[Token] = []
    for item in items:
        tokens = [item.low, item.high] if isinstance(item, Group) else [item]
        found += [token for token in tokens if token is not None and token.kind == "QUANTITY"]
    return found


def _units(text: str) -> list[str]:
    """The units of a quantity: of a compound time all of them."""
    return re.findall(r"(?:^|\s|\d)([^\W\d]\S*|°\S+|%)", text.split("\n")[0])


def unit_of(head: str, dimension: Dimension) -> tuple[str, bool]:
    """The unit in the brackets a head ends with, and whether they are square; "" without brackets.

    What stands in round brackets is often no unit, and counts where it is one.
    """
    found = re.search(r"[\[(]([^\[\]()]*)[\])]\s*$", head)
    if found is None:
        return "", False
    square = found[0].startswith("[")
    written = found[1].strip()
    if square or find_unit(written, dimension) is not None:
        return written, square
    return "", False


def parted(head: str) -> tuple[str, str]:
    """A head without the square brackets at its end, and what stands in them, "" without any."""
    found = re.search(r"\s*\[([^\[\]]*)\]\s*$", head)
    return (head[: found.start()], found[1].strip()) if found is not None else (head, "")


def _wanted(lead: Lead) -> str:
    assert lead.field.type is not None
    return lead.field.type.words


def _example(lead: Lead) -> str:
    assert lead.field.type is not None
    example = lead.field.example or lead.field.type.example
    return f", for example {example}" if example else ""
