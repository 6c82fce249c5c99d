"""A list names each thing once."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.declare import BLOCK, Entry, Field
from hts.language.vocabulary.types import BookEdition, Choice, Edition, Text

_SHOW = "  show         SI and US\n"
_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "{}" about {}\n  insulation resistance at least 1 Mohm\n}}\n\ncontroller C1 {{'
)

RULE = Rule(
    "D117",
    "listed-twice",
    "warning",
    summary="A list of books, of words to choose from, of papers, permits, cautions or checks that names one of them "
    "twice.",
    why="The one that was meant to stand there is missing, and nobody looks for it.",
    fix="Write the one that is missing, or leave out the second.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("2018, local-heating\n", "2018, local-heating, local-heating\n"),), at="local-heating"
        ),
        Bad(
            ((_SHOW, f'{_SHOW}  permit "HW-240"\n  permit "HW-240"\n'),),
            at='"HW-240"',
            says="HW-240 stands twice in `permit`",
        ),
        Bad(
            (
                (
                    "controller C1 {",
                    _CHECKS.format("Bore drained and vented", "drained and vented"),
                ),
            ),
            at='"Bore drained and vented"',
            says="Bore drained and vented stands twice in `check`",
        ),
    ),
    good=(
        Good((("2018, local-heating\n", "2018, local-heating, thermocouples\n"),)),
        Good(((_SHOW, f'{_SHOW}  permit "HW-240"\n  permit "HW-241"\n'),)),
        Good((("controller C1 {", _CHECKS.format("Ends closed", "ends closed")),)),
    ),
)
#: What a chart shows is told by chart-shows-twice.
_TOLD = ("chart_shows",)
#: Lists of entries that each have a text of their own.
_BY_TEXT = ("checks", "hand_over")
#: By class of entry, the fields that hold lists of words or books, and those that hold entries with
#: such a list in them or below them.
_PLANS: dict[type[Entry], tuple[tuple[Field, ...], tuple[Field, ...]]] = {}


@RULE.for_spec
def check(case: Case) -> None:
    for entry, field, word in _twice(case.spec.file):
        case.add(
            RULE.found(
                f"{word} stands twice in `{' '.join(field.words)}`",
                entry.place("text" if field.name in _BY_TEXT else field.name),
                address=entry.address,
                basis=RULE.basis,
            )
        )


def _twice(entry: Entry) -> Iterator[tuple[Entry, Field, str]]:
    """What is listed twice in an entry and all below it, as the text itself writes it."""
    lists, blocks = _plan(type(entry))
    for field in lists:
        values = getattr(entry, field.name) if field.name in entry.places else ()
        words = [_word(value) for value in values]
        for word in dict.fromkeys(w for w in words if w and words.count(w) > 1):
            yield entry, field, word
    for field in blocks:
        if field.name in entry.places:
            value = getattr(entry, field.name)
            if field.name in _BY_TEXT and isinstance(value, list):
                yield from _alike(field, value)
            for each in value if field.many else (value,):
                if isinstance(each, Entry) and each.sound:
                    yield from _twice(each)


def _alike(field: Field, entries: list[Entry]) -> Iterator[tuple[Entry, Field, str]]:
    """The entries whose text stands in the list before."""
    seen: set[str] = set()
    for each in entries:
        text = getattr(each, "text", None)
        if each.sound and isinstance(text, str):
            if text.casefold() in seen:
                yield each, field, text
            seen.add(text.casefold())


def _plan(cls: type[Entry]) -> tuple[tuple[Field, ...], tuple[Field, ...]]:
    known = _PLANS.get(cls)
    if known is None:
        fields = tuple(cls.fields.values())
        known = _PLANS[cls] = (
            tuple(f for f in fields if _is_told(f)),
            tuple(f for f in fields if _has_lists(f)),
        )
    return known


@cache
def _lists(cls: Any) -> bool:
    """Whether an entry has such a list, or one below it may have: few have."""
    fields = cls.fields.values()
    return any(_is_told(f) or _has_lists(f) for f in fields)


def _has_lists(field: Field) -> bool:
    if field.form != BLOCK:
        return False
    return field.name in _BY_TEXT or any(_lists(each) for each in _inner(field))


def _inner(field: Field) -> tuple[Any, ...]:
    """The classes of the entries in a field."""
    return field.family or ((field.entry,) if field.entry is not None else ())


def _is_told(field: Field) -> bool:
    return _is_list(field) and field.name not in _TOLD


def _is_list(field: Field) -> bool:
    return field.many and isinstance(field.type, Choice | BookEdition | Text)


def _word(value: Any) -> str:
    if isinstance(value, Edition):
        return value.book
    return value if isinstance(value, str) else ""
