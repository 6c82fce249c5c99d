"""A joint that has to be preheated is."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.examples import BUTT
from hts.checking.rules.helpers.against import cited, places, shown_bound
from hts.checking.rules.helpers.missing import already_told
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_BLOCK = BUTT[BUTT.index("preheat W12 {") : BUTT.index("cycle stress-relief")]
_MADE = "  made in    field\n"
#: degC up to which no heating is meant: the part is only dried. Common practice, no source.
_WARM = 50

RULE = Rule(
    "P134",
    "preheat-left-out",
    "warning",
    summary="A joint without a preheat although a book or procedure asks for one, or with one "
    "although its weld is made already.",
    why="The weld is made cold, becomes hard and cracks from hydrogen, and the paper in hand shows "
    "nothing missing.",
    fix="Write the block `preheat` for it. Where the weld was made before this work, write "
    "`weld is made already` in the joint.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(((_BLOCK, ""),), at="W12", says="330.1.1 … at least 150 degC (302 degF)"),
        Bad(((_MADE, f"{_MADE}  weld is    made already\n"),), at="made already"),
    ),
    good=(Good(((_BLOCK, ""), (_MADE, f"{_MADE}  weld is    made already\n"))),),
    agrees=(Agreement("joint.weld is", "preheat.joints", "what is still to be made is preheated"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    made = joint.entry.weld_is == "made already"
    if made and joint.preheat is not None and joint.preheat.sound:
        case.add(
            RULE.found(
                f"{joint.name} is made already, and is to be preheated for welding",
                joint.place("weld_is"),
                address=joint.address,
                others=[Label(joint.preheat.place(), "the preheat")],
            )
        )
    if case.spec.file.job is None or joint.preheat is not None or made:
        return
    # A preheat that could not be read whole may be the one for this joint.
    if not joint.entry.sound or any(not block.sound for block in case.spec.file.preheats):
        return
    governing = limits_of(case, joint).of("preheat")
    demand = governing.setter("minimum") if governing is not None else None
    least = demand.bounds["minimum"] if demand is not None else None
    if demand is None or not isinstance(least, Quantity) or least.to("degC") <= _WARM:
        return
    if "p_number" in already_told(joint):
        return
    finding = RULE.found(
        f"{joint.name} has no preheat, but {cited(demand.limit.source)} asks for at least "
        f"{shown_bound(demand, 'minimum', least)}",
        joint.place("names"),
        address=joint.address,
        others=places(demand.limit.source),
        basis=demand.limit.source.basis,
    )
    if demand.limit.source.at is None:
        # What a book asks, everybody who welds under it knows; what an owner asks may be new.
        finding.severity = "advice"
    case.add(finding)
