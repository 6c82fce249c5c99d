"""Which metals a joint is of."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.language.model.joint import Joint

#: P-numbers of the steels that are tempered or stress relieved below their lower critical.
FERRITIC = ("1", "3", "4", "5A", "5B", "5C", "15E")
#: Those whose heat-affected zone hardens as welded.
HARDENING = ("4", "5A", "5B", "5C", "15E")

#: Mass % of chromium from which hydrogen leaves a steel more slowly than carbon steel, and the
#: P-numbers of those with vanadium. From memory, no source.
_SLOW_CHROMIUM, _SLOW = 5, ("5C", "15E")


def p_numbers(joint: Joint) -> list[str]:
    """The P-numbers known of the sides of a joint."""
    found = (side.figure("p_number") for side in joint.sides)
    return [str(number.value) for number in found if number is not None]


def hardens(joint: Joint) -> bool:
    """Whether a side is of a steel that hardens as welded."""
    return any(number in HARDENING for number in p_numbers(joint))


def slow_for_hydrogen(joint: Joint) -> bool:
    """Whether a side is of a steel that hydrogen leaves more slowly than carbon steel."""
    figures = (side.figure("chromium") for side in joint.sides)
    chromium = [
        one.value.value for one in figures if one is not None and isinstance(one.value, Quantity)
    ]
    of_slow = any(number in _SLOW for number in p_numbers(joint))
    return of_slow or any(one >= _SLOW_CHROMIUM for one in chromium)
