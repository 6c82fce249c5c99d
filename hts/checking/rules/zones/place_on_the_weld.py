"""What is told from the weld lies beside it."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import half
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import MONITORS, Joint

#: What lies beside the weld, and never on it.
_BESIDE = (
    "heavy section",
    "soak edge",
    "heated edge",
    "gradient edge",
    "base metal",
    "nearby item",
)

RULE = Rule(
    "Z157",
    "place-on-the-weld",
    "warning",
    summary="A thermocouple that watches what lies beside the weld, at a distance within the cap of "
    "the weld.",
    why="It reads the weld, and the edge or the heavy section it is named after goes unwatched.",
    fix="Correct the distance.",
    source="geometry: half the width of the cap",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n",
                    "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
                    "    T7   monitors base metal     at 3:00,  {} upstream     channel 9\n",
                ),
            ),
            keeps="15 mm",
            breaks="14 mm",
            says="T7 watches base metal 14 mm (0.551 in) from the centreline … 15 mm (0.5906 in)",
        ),
    ),
    agrees=(
        Agreement("joint.thermocouples.thermocouple.offset", "joint.cap width", "beside the cap"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    cap = joint.entry.cap_width
    if not isinstance(cap, Quantity):
        return
    for tc in joint.thermocouples:
        offset = tc.entry.offset
        if tc.duty != MONITORS or tc.entry.monitors not in _BESIDE or offset is None:
            continue
        if offset.distance >= half(cap):
            continue
        case.add(
            RULE.found(
                f"{tc.tag} watches {tc.entry.monitors} {offset.distance.both()} from the centreline of "
                f"the weld, whose cap reaches {half(cap).in_unit(offset.distance.unit.symbol).both()}",
                tc.place("offset"),
                address=tc.address,
                others=[Label(joint.entry.place("cap_width"), "the cap")],
            )
        )
