"""A thermocouple that monitors an edge sits at that edge."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import from_weld, half, limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import MONITORS, Joint, Thermocouple

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
        # All of them agree with each other: the band is told, once.
        Edge(
            (
                ("at 12:00, 40 mm downstream", "at 12:00, {} downstream"),
                ("at 6:00,  40 mm upstream  ", "at 6:00,  {} upstream  "),
            ),
            keeps="45 mm",
            breaks="46 mm",
            at="soak band",
            says="T3, T4 … 46 mm (1.81 in) … outside … 40.4 mm (1.591 in)",
        ),
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
    for where in _EDGES:
        there = [
            (tc, distance)
            for tc in joint.thermocouples
            if tc.duty == MONITORS
            and tc.entry.monitors == where
            and (distance := from_weld(tc)) is not None
        ]
        _edge(case, joint, where, there)


def _edge(case: Case, joint: Joint, where: str, there: list[tuple[Thermocouple, Quantity]]) -> None:
    band, near = _EDGES[where]
    width = limits_of(case, joint).band(band)
    if width is None:
        return
    wrong = [
        (tc, distance)
        for tc, distance in there
        if abs(distance.value - width.value / 2) > near.value
    ]
    if not wrong:
        return
    notes = [
        f"the {band} is {width.both()} in total; common practice is within {near.both()} of its edge"
    ]
    heating = joint.entry.heating
    if heating and len(wrong) > 1 and len({distance.value for _, distance in there}) == 1:
        # All of them sit at one edge, only another one: the width is what slipped.
        tags = ", ".join(tc.tag for tc, _ in wrong)
        case.add(
            RULE.found(
                f"{tags} monitor the {where} at {wrong[0][1].both()} from the weld centreline, "
                f"{_beside(wrong[0][1], width)}",
                heating.place(band.replace(" ", "_")),
                address=f"{joint.address}/heating",
                others=[Label(tc.place(_field(tc)), "sits here") for tc, _ in wrong],
                notes=notes,
                help="compare the width of the band with the places of its thermocouples",
            )
        )
        return
    for tc, distance in wrong:
        case.add(
            RULE.found(
                f"{tc.tag} monitors the {where} at {distance.both()} from the weld centreline, "
                f"{_beside(distance, width)}",
                tc.place(_field(tc)),
                address=tc.address,
                notes=notes,
            )
        )


def _field(tc: Thermocouple) -> str:
    return "offset" if tc.entry.offset is not None else "on_weld"


def _beside(distance: Quantity, width: Quantity) -> str:
    edge = half(width).in_unit(distance.unit.symbol).both("up")
    return f"{'inside' if distance < half(width) else 'outside'} the edge at {edge}"
