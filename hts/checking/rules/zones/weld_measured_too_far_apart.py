"""A long weld is measured along all of it."""

from __future__ import annotations

from itertools import pairwise

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import ELSEWHERE
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import SPARE, Joint
from hts.language.model.seam import Seam, weld_along

#: The length over which codes compare temperatures: 15 ft.
_FARTHEST = Quantity.of(15, "ft", LENGTH)

RULE = Rule(
    "Z147",
    "weld-measured-too-far-apart",
    "warning",
    summary="More than 15 ft of a long seam between two thermocouples, or between one and its end.",
    why="The temperatures within 15 ft are to be compared, and what nobody measures cannot be.",
    fix="Add thermocouples on the weld between them and near its ends.",
    source="ASME BPVC VIII-1 UCS-56(d), the length over which temperatures are compared; that one "
    "is measured within it is common practice",
    basis="memory",
    edges=(
        Edge(
            (
                ('seam 2.4 m from "north head"', 'seam {} from "north head"'),
                ("along 1200 mm .. 2400 mm", "along 1200 mm .. {}"),
            ),
            keeps="6372 mm",
            breaks="6373 mm",
            at="1800 mm",
            base="seam",
            says="4573 mm (180 in) … 15 ft (4.572 m)",
        ),
    ),
    agrees=(
        Agreement(
            "joint.seam.length", "joint.thermocouples.thermocouple.along", "measured all along"
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    weld = weld_along(joint)
    if not isinstance(weld, Seam) or joint.entry.seam is None:
        return
    placed = sorted(
        (float(tc.entry.along.value), tc.tag, tc)
        for tc in joint.thermocouples
        if tc.entry.along is not None and tc.duty != SPARE and tc.entry.monitors not in ELSEWHERE
    )
    if not placed:
        return
    stops = [0.0, *(at for at, _, _ in placed), weld.length]
    owners = [placed[0], *placed, placed[-1]]
    for (at, after), owner in zip(pairwise(stops), owners, strict=False):
        if after - at <= float(_FARTHEST.value):
            continue
        span = Quantity.of(round(after - at), "mm", LENGTH)
        tc = owner[2]
        case.add(
            RULE.found(
                f"nothing measures {span.both()} of the seam of {joint.name} beside {tc.tag}; at "
                f"most {_FARTHEST.both()} is usual",
                tc.place("along"),
                address=tc.address,
                others=[Label(joint.entry.seam.place(), "the seam")],
                basis=RULE.basis,
            )
        )
