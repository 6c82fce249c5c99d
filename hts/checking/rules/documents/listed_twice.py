"""A list names each thing once."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.declare import BLOCK, Entry, Field
from hts.language.vocabulary.types import BookEdition, Choice, Edition

RULE = Rule(
    "D117",
    "listed-twice",
    "warning",
    summary="A list of books, or of words to choose from, that names one of them twice.",
    why="The one that was meant to stand there is missing, and nobody looks for it.",
    fix="Write the one that is missing, or leave out the second.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("2018, local-heating\n", "2018, local-heating, local-heating\n"),), at="local-heating"
        ),
    ),
    good=(Good((("2018, local-heating\n", "2018, local-heating, thermocouples\n"),)),),
)
#: What a chart shows is told by chart-shows-twice.
_TOLD = ("chart_shows",)
#: By class of entry, the fields that hold lists of words or books, and those that hold entries with
#: such a list in them or below them.
_PLANS: dict[type[Entry], tuple[tuple[Field, ...], tuple[Field, ...]]] = {}


@RULE.for_spec
def check(case: Case) -> None:
    for entry, field, word in _twice(case.spec.file):
        case.add(
            RULE.found(
                f"{word} stands twice in `{' '.join(field.words)}`",
                entry.place(field.name),
                address=entry.address,
                basis=RULE.basis,
            )
        )


def _twice(entry: Entry) -> Iterator[tuple[Entry, Field, str]]:
    """What is listed twice in an entry and all below it, as the text itself writes it."""
    lists, blocks = _plan(type(entry))
    for field in lists:
        values = getattr(entry, field.name) if field.name in entry.places else ()
        if len(values) > 1:
            words = [_word(value) for value in values]
            for word in dict.fromkeys(w for w in words if w and words.count(w) > 1):
                yield entry, field, word
    for field in blocks:
        if field.name in entry.places:
            value = getattr(entry, field.name)
            for each in value if field.many else (value,):
                if isinstance(each, Entry) and each.sound:
                    yield from _twice(each)


def _plan(cls: type[Entry]) -> tuple[tuple[Field, ...], tuple[Field, ...]]:
    known = _PLANS.get(cls)
    if known is None:
        fields = tuple(cls.fields.values())
        known = _PLANS[cls] = (
            tuple(f for f in fields if _is_told(f)),
            tuple(f for f in fields if f.form == BLOCK and any(_lists(c) for c in _inner(f))),
        )
    return known


@cache
def _lists(cls: Any) -> bool:
    """Whether an entry has such a list, or one below it may have: few have."""
    fields = cls.fields.values()
    return any(_is_told(f) or any(_lists(c) for c in _inner(f)) for f in fields)


def _inner(field: Field) -> tuple[Any, ...]:
    """The classes of the entries in a field."""
    return field.family or ((field.entry,) if field.entry is not None else ())


def _is_told(field: Field) -> bool:
    return _is_list(field) and field.name not in _TOLD


def _is_list(field: Field) -> bool:
    return field.many and isinstance(field.type, Choice | BookEdition)


def _word(value: Any) -> str:
    if isinstance(value, Edition):
        return value.book
    return value if isinstance(value, str) else ""
