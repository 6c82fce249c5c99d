"""In what a value is measured."""

from __future__ import annotations

from hts.base.quantities import (
    DIMENSIONS,
    LENGTH,
    MASS_FRACTION,
    Dimension,
    Quantity,
    QuantityError,
    difference_of,
)
from hts.editor.phrase import stated
from hts.language.vocabulary.formulas import Expression
from hts.language.vocabulary.types import (
    Amount,
    ElementShare,
    Offset,
    PlusMinus,
    Range,
    Type,
    Width,
)


def dimensions_of(type_: Type | None) -> tuple[Dimension, ...]:
    """The dimensions a quantity in such a value may have: one, all those of a formula, or none."""
    type_ = stated(type_)
    if isinstance(type_, Amount | Range | PlusMinus):
        return (type_.dimension,)
    if isinstance(type_, Width | Offset):
        return (LENGTH,)
    if isinstance(type_, ElementShare):
        return (MASS_FRACTION,)
    if isinstance(type_, Expression):
        return DIMENSIONS
    return ()


def quantity_in(text: str, type_: Type | None, *, apart: bool = False) -> Quantity | None:
    """The quantity a word of such a value is, None where it is none; ``apart``: what stands behind
    +/-, which is a difference."""
    for dimension in dimensions_of(type_):
        try:
            return Quantity.read(text, difference_of(dimension) if apart else dimension)
        except QuantityError:
            continue
    return None
