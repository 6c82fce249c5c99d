"""Places along a weld lie on it."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint
from hts.language.model.seam import SEAM, weld_along

RULE = Rule(
    "Z143",
    "beyond-the-weld",
    "error",
    floor="error",
    summary="A thermocouple or a zone farther along than the weld is long.",
    why="It cannot be attached there, and is put wherever there is room.",
    fix="Correct the distance along the weld or the size of the weld; measure it where in doubt.",
    source="arithmetic: distance along the weld against its length",
    basis="derived",
    edges=(
        Edge(
            (("along 1800 mm, 287 mm side B", "along {}, 287 mm side B"),),
            keeps="2400 mm",
            breaks="2401 mm",
            base="seam",
            says="2401 mm (94.53 in) … 2400 mm (94.49 in)",
        ),
        Edge(
            (("along 1200 mm .. 2400 mm", "along 1200 mm .. {}"),),
            keeps="2400 mm",
            breaks="2401 mm",
            at="1200 mm .. 2401 mm",
            base="seam",
            says="2401 mm (94.53 in) … 2400 mm (94.49 in)",
        ),
    ),
    agrees=(
        Agreement("joint.seam.length", "joint.thermocouples.thermocouple.along", "not beyond it"),
        Agreement("joint.seam.length", "joint.heating.zone.along", "not beyond it"),
        Agreement("joint.pad.by", "joint.thermocouples.thermocouple.along", "within once round"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    weld, entry = weld_along(joint), joint.entry
    if weld is None:
        return
    whole = Quantity.of(Fraction(round(weld.length * 1000), 1000), "mm", LENGTH)
    size = entry.seam if entry.kind == SEAM else entry.pad
    assert size is not None
    for said, at, what, address in (
        *((tc.entry.along, tc.place("along"), tc.tag, tc.address) for tc in joint.thermocouples),
        *(
            (z.entry.along.high, z.place("along"), f"zone {z.name}", z.address)
            for z in joint.zones
            if z.entry.along is not None
        ),
    ):
        if said is None or said <= whole:
            continue
        case.add(
            RULE.found(
                f"{what} lies at {said.both()} along a weld that is {whole.both()} long",
                at,
                address=address,
                others=[Label(size.place(), "its size")],
            )
        )
