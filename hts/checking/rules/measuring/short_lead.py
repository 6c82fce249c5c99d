"""Thermocouple wire reaches out of the insulation before it is connected."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.measuring.lead_within_insulation import insulated_beyond
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

_SHORTEST = Quantity.of(1, "m", LENGTH)
_LEAD = "lead at least       1 m"

RULE = Rule(
    "C127",
    "short-lead",
    "advice",
    summary="Leads of thermocouple wire shorter than 1 m (3.3 ft).",
    why="The connector then lies in the heat, where cable and contacts read falsely or melt.",
    fix="Lead the wire out by at least 1 m.",
    source="common practice, no source (1 m)",
    basis="practice",
    about=("joint.thermocouples.lead at least",),
    edges=(
        Edge(
            ((_LEAD, "lead at least       {}"),),
            keeps="1000 mm",
            breaks="999 mm",
            says="of 999 mm (39.33 in) … at least 1000 mm (39.38 in)",
        ),
        Edge(
            (("on weld              channel 7", "on weld lead {} channel 7"),),
            keeps="1.000 m",
            breaks="0.999 m",
            says="of 0.999 m (3.278 ft) … at least 1 m (3.281 ft)",
        ),
    ),
    good=(Good(((_LEAD, "lead at least       4 ft"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    for entry, address in (
        (block, f"{joint.address}/thermocouples"),
        *((tc.entry, tc.address) for tc in joint.thermocouples),
    ):
        if entry is block and insulated_beyond(case, joint) is not None:
            continue
        if entry is not None and entry.lead is not None and entry.lead < _SHORTEST:
            case.add(
                RULE.found(
                    f"a lead of {entry.lead.both()} at {joint.name}; common practice is at least "
                    f"{_SHORTEST.in_unit(entry.lead.unit.symbol).both('up')}",
                    entry.place("lead"),
                    address=address,
                    basis=RULE.basis,
                )
            )
            return
