"""A thermocouple that monitors an edge sits at that edge."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import from_weld, half, limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import MONITORS, Joint

#: Band, and how far from its edge a monitor may sit: common practice, no source. The soak edge
#: decides whether the range was held; the outer edges only show how the temperature falls.
_EDGES = {
    "soak edge": ("soak band", Quantity.of(5, "mm", LENGTH)),
    "heated edge": ("heated band", Quantity.of(10, "mm", LENGTH)),
    "gradient edge": ("gradient band", Quantity.of(25, "mm", LENGTH)),
}

RULE = Rule(
    "Z120",
    "edge-monitor-misplaced",
    "warning",
    summary="A thermocouple that monitors the edge of a band and does not sit at it.",
    why="Inside the edge it reads warmer than the edge, and passes a band that is too narrow.",
    fix="Move it to the edge: half the width of the band from the weld centreline.",
    source="common practice, no source (5 mm at the soak band, 10 mm at the heated band, 25 mm "
    "at the gradient band)",
    basis="practice",
    edges=(
        Edge(
            (("at 6:00,  40 mm upstream  ", "at 6:00,  {} upstream  "),),
            keeps="36 mm",
            breaks="35 mm",
            says="35 mm (1.38 in) … 40.4 mm (1.591 in)",
        ),
        Edge(
            (("at 6:00,  287 mm upstream  ", "at 6:00,  {} upstream  "),),
            keeps="278 mm",
            breaks="277 mm",
            says="277 mm (10.91 in) … 287.4 mm (11.32 in)",
        ),
    ),
    good=(Good((("at 6:00,  40 mm upstream  ", "at 6:00,  42 mm upstream  "),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for tc in joint.thermocouples:
        where = tc.entry.monitors
        distance = from_weld(tc)
        if tc.duty != MONITORS or where not in _EDGES or distance is None:
            continue
        band, near = _EDGES[where]
        width = limits_of(case, joint).band(band)
        if width is None or abs(distance.value - width.value / 2) <= near.value:
            continue
        edge = half(width).in_unit(distance.unit.symbol).both("up")
        where_to = "inside" if distance < half(width) else "outside"
        case.add(
            RULE.found(
                f"{tc.tag} monitors the {where} at {distance.both()} from the weld centreline, "
                f"{where_to} the edge at {edge}",
                tc.place("offset" if tc.entry.offset is not None else "on_weld"),
                address=tc.address,
                notes=[
                    f"the {band} is {width.both()} in total; common practice is within "
                    f"{near.both()} of its edge"
                ],
            )
        )
