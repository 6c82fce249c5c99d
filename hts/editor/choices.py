"""The words a value can be made of besides names, figures and texts."""

from __future__ import annotations

from hts.editor.phrase import stated
from hts.language.vocabulary.types import (
    ELEMENTS,
    SIDES,
    BookEdition,
    Choice,
    ElementShare,
    Joints,
    Offset,
    Size,
    Type,
    Width,
)

#: What a width counts.
WIDTHS = ("total", "each side", "in total")


def choices_of(type_: Type | None) -> tuple[str, ...]:
    """Every phrase with a meaning of its own in such a value, `by rule` left out."""
    type_ = stated(type_)
    if isinstance(type_, Choice):
        return type_.choices
    if isinstance(type_, Width):
        return WIDTHS
    if isinstance(type_, Offset):
        return SIDES
    if isinstance(type_, ElementShare):
        return tuple(sorted(ELEMENTS))
    if isinstance(type_, Size):
        return type_.known
    if isinstance(type_, Joints):
        return ("each of", "like")
    return ("edition",) if isinstance(type_, BookEdition) else ()
