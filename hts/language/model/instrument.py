"""What an instrument may be off by at a temperature, however its error is stated."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import DIFFERENCE, Quantity
from hts.language.vocabulary.equipment import Instrument


def error_at(one: Instrument, at: Quantity | None) -> Quantity | None:
    """Limit of error, K, at a temperature, all that is stated added; at the top of its range
    without one. None where nothing, or not what a share is taken of, is stated."""
    parts = [] if one.error is None else [one.error]
    whole = one.channels.range if one.channels is not None else None
    if one.error_of_reading is not None:
        top = at or (whole.high if whole is not None else None)
        if top is None:
            return None
        parts.append(_share(one.error_of_reading, abs(top.value)))
    if one.error_of_span is not None:
        if whole is None or whole.width is None:
            return None
        parts.append(_share(one.error_of_span, whole.width.value))
    return sum(parts[1:], parts[0]) if parts else None


def _share(share: Quantity, of: Fraction) -> Quantity:
    return Quantity.of(Fraction(share.to("%")) * of / 100, "K", DIFFERENCE)
