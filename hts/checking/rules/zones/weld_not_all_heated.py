"""The zones along a weld heat all of it, each part once."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint
from hts.language.model.seam import SEAM, weld_along

RULE = Rule(
    "Z146",
    "weld-not-all-heated",
    "warning",
    summary="Part of a long seam, or of the weld round a pad, in no zone or in two.",
    why="What no zone heats stays cold; what two zones heat follows neither thermocouple.",
    fix="Let one zone begin where the other ends, from one end of the weld to the other.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (("zone bottom    along 1200 mm", "zone bottom    along {}"),),
            keeps="1200 mm",
            breaks="1199 mm",
            at="1199 mm .. 2400 mm",
            base="seam",
            says="two zones … from 1199 mm (47.2 in) to 1200 mm (47.24 in)",
        ),
        Edge(
            (("zone bottom    along 1200 mm", "zone bottom    along {}"),),
            keeps="1200 mm",
            breaks="1201 mm",
            at="1201 mm .. 2400 mm",
            base="seam",
            says="from 1200 mm (47.24 in) to 1201 mm (47.28 in)",
        ),
        Edge(
            (("zone bottom    along 1200 mm .. 2400 mm", "zone bottom    along 1200 mm .. {}"),),
            keeps="2400 mm",
            breaks="2399 mm",
            at="1200 mm .. 2399 mm",
            base="seam",
            says="from 2399 mm (94.45 in) to 2400 mm (94.49 in)",
        ),
    ),
    agrees=(Agreement("joint.heating.zone.along", "joint.seam.length", "together all of it"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    weld, entry = weld_along(joint), joint.entry
    found = []
    for zone in joint.zones:
        part = zone.entry.along
        if part is None or part.low is None or part.high is None:
            return
        found.append((part.low, part.high, zone))
    size = entry.seam if entry.kind == SEAM else entry.pad
    if weld is None or size is None or not found:
        return
    found.sort(key=lambda one: (one[0].value, one[1].value))
    reached, before = Quantity.of(0, "mm", LENGTH), size.place()
    for low, high, zone in found:
        if low > reached:
            _tell(
                case,
                joint,
                f"no zone heats from {_both(reached, low)}",
                zone.place("along"),
                before,
            )
        elif low < reached:
            end = min(reached, high)
            message = f"two zones heat from {_both(low, end)}"
            _tell(case, joint, message, zone.place("along"), before)
        if high >= reached:
            reached, before = high, zone.place("along")
    whole = Quantity.of(Fraction(round(weld.length)), "mm", LENGTH)
    if reached + Quantity.of(1, "mm", LENGTH) <= whole:
        _tell(case, joint, f"no zone heats from {_both(reached, whole)}", before, size.place())


def _both(low: Quantity, high: Quantity) -> str:
    return f"{low.both()} to {high.both()}"


def _tell(case: Case, joint: Joint, message: str, at: Span, other: Span) -> None:
    found = RULE.found(message, at, address=joint.address, others=[Label(other, "beside it")])
    case.add(found)
