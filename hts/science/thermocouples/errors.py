"""What can be wrong with a question put to the thermocouple tables."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

Number = float | Fraction


class ThermocoupleError(ValueError):
    """Base of every error of this part."""


class UnknownName(ThermocoupleError):
    """A thermocouple type, cable marking, standard or material that is not known.

    `kind` says what was looked up, `name` what was asked, `known` what there is.
    """

    def __init__(self, kind: str, name: object, known: Iterable[str]) -> None:
        self.kind = kind
        self.name = name
        self.known = tuple(known)
        super().__init__(f"unknown {kind} {name!r}; known: {', '.join(self.known)}")


class NotDefined(ThermocoupleError):
    """Every name is known, but the standard gives no figure for this combination."""


class OutOfRange(ThermocoupleError):
    """A value outside the range in which a function or a figure is valid.

    `type` is the thermocouple type; `value`, `low` and `high` are in `unit`, ends included.
    """

    def __init__(
        self,
        type: str,
        value: Number,
        low: Number,
        high: Number,
        unit: str,
        subject: str = "",
        reason: str = "",
    ) -> None:
        self.type = type
        self.value = value
        self.low = low
        self.high = high
        self.unit = unit
        where = f"{subject}, type {type}" if subject else f"type {type}"
        if value < low:
            fault = f"is below {float(low):.10g} {unit}"
        elif value > high:
            fault = f"is above {float(high):.10g} {unit}"
        else:
            fault = "is not a number"
        tail = f"; {reason}" if reason else ""
        super().__init__(f"{where}: {float(value):.10g} {unit} {fault}{tail}")
