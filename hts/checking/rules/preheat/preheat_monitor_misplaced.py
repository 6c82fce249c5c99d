"""What monitors preheat sits in the preheated metal, clear of the arc."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.places import from_weld, limits_of
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import MONITORS, Joint

_T6 = "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
_BY_WIRE = "  measured by       contact probe"


def _at(distance: str) -> tuple[tuple[str, str], ...]:
    return (
        (_T6, f"{_T6}    T9   monitors preheat at 3:00, {distance} upstream channel 9\n"),
        (_BY_WIRE, f"  measured by       thermocouple\n{_BY_WIRE}"),
        ("  keep until        end", "  recorded by       R1\n  keep until        end"),
    )


RULE = Rule(
    "P124",
    "preheat-monitor-misplaced",
    "warning",
    summary="A thermocouple that monitors preheat beyond the width to be preheated, or so close to "
    "the groove that the arc warms it.",
    why="Close by, the arc is read for the preheat; beyond the width, metal nobody has to warm.",
    fix="Place it within the preheated width, clear of the groove.",
    source="common practice, no source; ISO 13916:2017 4.1 measures 50 mm or more from the groove",
    basis="practice",
    bad=(Bad(_at("7 mm"), at="7 mm"),),
    edges=(
        Edge(
            _at("{}"),
            keeps="90 mm",
            breaks="91 mm",
            says="76 mm (2.992 in) … 75 mm (2.953 in)",
        ),
        Edge(
            _at("{}"),
            keeps="35 mm",
            breaks="34 mm",
            says="only 19 mm (0.748 in)",
        ),
    ),
    good=(Good(_at("65 mm")), Good(_at("90 mm")), Good(_at("35 mm"))),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.offset",
            "preheat.width",
            "what monitors preheat sits within it",
        ),
    ),
)

#: From the edge of the weld; nearer the arc is read. Common practice, no source.
_CLEAR = Quantity.of(20, "mm", LENGTH)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat, cap = joint.preheat, joint.entry.cap_width
    watching = [
        tc for tc in joint.thermocouples if tc.duty == MONITORS and tc.entry.monitors == "preheat"
    ]
    if preheat is None or cap is None or not watching:
        return
    limits = limits_of(case, joint)
    total = total_width(preheat.width, limits.thickness)
    width = total / 2 if total is not None else None
    for tc in watching:
        distance = from_weld(tc)
        if distance is None:
            continue
        beside = distance - cap / 2
        if beside < _CLEAR:
            told = (
                f"only {beside.both()} from the edge of the weld"
                if beside.value > 0
                else "on the weld"
            )
            message = f"{tc.tag} monitors the preheat {told}"
        elif width is not None and beside > width:
            message = (
                f"{tc.tag} monitors the preheat {beside.both()} from the edge of the weld, beyond the "
                f"{width.both()} to be preheated"
            )
        else:
            continue
        case.add(
            RULE.found(
                message,
                tc.place("offset") if tc.entry.offset is not None else tc.place("monitors"),
                address=tc.address,
                others=[Label(preheat.place("width"), "the width")] if preheat.width else [],
                basis=RULE.basis,
            )
        )
