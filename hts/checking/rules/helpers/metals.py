"""Which metals a joint is of."""

from __future__ import annotations

from hts.language.model.joint import Joint

#: P-numbers of the steels that are tempered or stress relieved below their lower critical.
FERRITIC = ("1", "3", "4", "5A", "5B", "5C", "15E")
#: Those whose heat-affected zone hardens as welded.
HARDENING = ("4", "5A", "5B", "5C", "15E")


def p_numbers(joint: Joint) -> list[str]:
    """The P-numbers known of the sides of a joint."""
    found = (side.figure("p_number") for side in joint.sides)
    return [str(number.value) for number in found if number is not None]


def hardens(joint: Joint) -> bool:
    """Whether a side is of a steel that hardens as welded."""
    return any(number in HARDENING for number in p_numbers(joint))
