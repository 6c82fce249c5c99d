"""What holds the line near a weld: the nearest supports, and what words for a support tell."""

from __future__ import annotations

import re
from fractions import Fraction

from hts.language.model.joint import Joint
from hts.language.model.orientation import Orientation
from hts.language.vocabulary.joint import Support

SPRING, LENT, HANGER, REST = "spring", "lent", "hanger", "rest"
RESTRAINT, HOLDER = "restraint", "holder"
#: Words that tell what a support does, the first that fits; what none tells is not judged.
_TELLING = (
    (LENT, r"\btemporar|\bhoists?\b|chain block|\bjacks?\b(?![ -]?(bolt|screw))|\bcranes?\b"),
    (SPRING, r"\bsprings?\b|\bconstant\b|\bvariable\b"),
    (RESTRAINT, r"\banchor|\bguides?\b|\bstops?\b|\bstruts?\b"),
    (HANGER, r"\bhangers?\b"),
    (REST, r"\bshoes?\b|\btrunnions?\b"),
    (HOLDER, r"\bclamp|\bsaddles?\b|\bbrackets?\b|\bcradles?\b"),
)


def told_by(support: Support) -> str:
    """SPRING, LENT (taken away afterwards), HANGER, REST (the line lies on it), RESTRAINT or
    HOLDER (which may be lent or stay); "" where no word tells."""
    what = support.what.lower()
    return next((kind for kind, words in _TELLING if re.search(words, what)), "")


def nearest(joint: Joint) -> list[Support]:
    """The nearest support toward each end of the pipe, one or two; none where the text does not
    tell which supports lie toward one end."""
    orientation = Orientation(joint.entry)
    ends: dict[tuple[str, bool], Support] = {}
    for support in joint.entry.supports:
        axis, sign = orientation.along(support.where.side)
        end = (axis, sign > 0)
        known = ends.get(end)
        if known is None or support.where.distance < known.where.distance:
            ends[end] = support
    return list(ends.values()) if len({axis for axis, _ in ends}) == 1 else []


def apart(supports: list[Support]) -> Fraction:
    """What supports toward both ends, or the one there is and the weld, leave free, in mm."""
    return sum((each.where.distance.value for each in supports), Fraction(0))


def hangs_in_a_line(joint: Joint) -> bool:
    """Whether the text tells that the weld is part of a line: made in the field, or with supports
    and a free length stated, wherever it is said to be made."""
    entry = joint.entry
    if entry.made == "field":
        return True
    heating = entry.heating
    in_furnace = heating is not None and heating.method == "furnace"
    return not in_furnace and bool(entry.supports or entry.says("unsupported_span"))
