"""One fact of a formula or condition spoiled: a figure, a unit, a fact, a relation, a choice."""

from __future__ import annotations

from collections.abc import Iterator

from hts.language.vocabulary.joint import SERVICES
from hts.limits.facts import FACT_KINDS
from hts.syntax.formula import Text
from hts.syntax.tree import Item
from tests.corruption.digits import exchanged_units, slips

_RELATIONS = {"<=": ("<", ">=", ">"), ">=": (">", "<=", "<"), "<": (">",), ">": ("<",)}
_RELATIONS |= {"=": ("!=",), "!=": ("=",), "+": ("-",), "-": ("+",), "*": ("/",), "/": ("*",)}
_WORDS = {"min": "max", "max": "min", "and": "or", "or": "and"}
P_NUMBERS = ("1", "3", "4", "5A", "5B", "5C", "8", "15E")

#: What was done, from where to where, and the new text.
Made = tuple[str, int, int, str]


def changes(text: str, items: tuple[Item, ...]) -> Iterator[Made]:
    """Every change of one fact of a formula; ``text`` is the whole source."""
    fact = ""
    for item in items:
        written = text[item.start : item.end]
        if written in FACT_KINDS:
            fact = written
            for other, kind in FACT_KINDS.items():
                if other != written and kind == FACT_KINDS[written]:
                    yield "other fact", item.start, item.end, other
        elif item.kind in ("QUANTITY", "MULTIPLE"):
            for slip in (*exchanged_units(written), *slips(written)):
                yield slip.change, item.start, item.end, slip.text
        elif written in _RELATIONS:
            for other in _RELATIONS[written]:
                yield "other relation", item.start, item.end, other
        elif written in _WORDS:
            yield "other relation", item.start, item.end, _WORDS[written]
        elif item.kind in ("WORD", "NUMBER") and (others := _choices(fact, written)):
            for other in others:
                yield "other choice", item.start, item.end, other
        elif item.kind == "NUMBER":
            for slip in slips(written):
                yield slip.change, item.start, item.end, slip.text
    yield from _counted(text, items)


def _choices(fact: str, written: str) -> tuple[str, ...]:
    """The other words that may stand beside a fact of words."""
    kind = FACT_KINDS.get(fact)
    if not isinstance(kind, Text):
        return ()
    known: tuple[str, ...] = tuple(kind.words)
    if fact == "p_number":
        known = P_NUMBERS
    elif fact == "service":
        known = tuple(service.replace(" ", "-") for service in SERVICES)
    return tuple(word for word in known if word != written) if written in known else ()


def _counted(text: str, items: tuple[Item, ...]) -> Iterator[Made]:
    """`total` for `each side` and the other way round, at the end of a width."""
    last = items[-1]
    if text[last.start : last.end] == "total":
        yield "total for each side", last.start, last.end, "each side"
    elif text[last.start : last.end] == "side" and len(items) > 1:
        yield "each side for total", items[-2].start, last.end, "total"
