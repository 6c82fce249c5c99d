"""The line near the weld is held as often as a line of its size is."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.helpers.supports import apart, hangs_in_a_line, nearest
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

_ROD = '"rod hanger" 1.2 m upstream fixed'
#: Outside diameter up to which, mm, and the span in m of a horizontal line that carries gas and no
#: loads besides itself: an empty pipe. ASME B31.1 table 121.5 (suggested spans), from memory.
_SPANS = (
    (34, "2.7"),
    (61, "4.0"),
    (89, "4.6"),
    (115, "5.2"),
    (169, "6.4"),
    (220, "7.3"),
    (324, "9.1"),
    (407, "10.7"),
    (509, "11.9"),
)
_WIDEST = "12.8"

RULE = Rule(
    "N118",
    "supports-far-apart",
    "warning",
    summary="Nearest supports farther apart than a cold line of this size is usually held.",
    why="At the temperature of the hold steel has a small part of its strength, and sags.",
    fix="Correct the distance, or put a temporary support near the weld and name it.",
    source="ASME B31.1 table 121.5, suggested spans, gas service",
    basis="memory",
    edges=(
        Edge(
            ((_ROD, '"rod hanger" {} upstream fixed'),),
            keeps="9.1 m",
            breaks="9.2 m",
            says="is 9.2 m (30.18 ft) … 9.1 m (29.85 ft)",
        ),
    ),
    good=(Good((("axis       horizontal", "axis       inclined at 30 deg"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    axis, diameter = joint.entry.axis, joint.outside_diameter
    if axis is None or axis.lies == "vertical" or diameter is None:
        return
    if not goes_round(joint) or not treated(joint) or not hangs_in_a_line(joint):
        return
    supports = nearest(joint)
    if not supports:
        return
    usual = usual_span(diameter.value)
    free = Quantity.of(apart(supports), "mm", LENGTH)
    if free <= usual:
        return
    unit = supports[0].where.distance.unit.symbol
    what = (
        f"the nearest support of {joint.name} is {free.in_unit(unit).both()} from the weld"
        if len(supports) == 1
        else f"the nearest supports of {joint.name} are {free.in_unit(unit).both()} apart"
    )
    case.add(
        RULE.found(
            f"{what}; an empty line of its size is held every {usual.in_unit(unit).both('down')}",
            supports[-1].place("where"),
            address=joint.address,
            others=[Label(each.place("where"), each.what) for each in supports[:-1]],
            basis=RULE.basis,
        )
    )


def usual_span(outside: Fraction) -> Quantity:
    """How far apart supports hold an empty line of so many mm outside."""
    return Quantity.of(
        next((span for most, span in _SPANS if outside <= most), _WIDEST), "m", LENGTH
    )
