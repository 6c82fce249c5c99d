"""Plugs in the bore sit beyond the heat."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import half, limits_of
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "N126",
    "plugs-in-heated-band",
    "warning",
    summary="Plugs against draught nearer to the weld than the heated band reaches.",
    why="They cool the bore where it has to be hot, burn or come loose, and behind them the draught "
    "goes on.",
    fix="Set them beyond the heated band, or correct the distance.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                (
                    "    ends           closed and vented\n",
                    "    draught stopped by plugs at {}\n    ends           closed and vented\n",
                ),
            ),
            keeps="288 mm",
            breaks="287 mm",
            says="287 mm (11.3 in) from the weld … reaches 287.3 mm (11.31 in)",
        ),
    ),
    agrees=(Agreement("joint.heating.draught.at", "joint.heating.heated band", "beyond it"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    draught = heating.draught if heating is not None else None
    if heating is None or draught is None or draught.at is None:
        return
    width = limits_of(case, joint).band("heated band")
    if width is None or draught.at >= half(width):
        return
    reaches = half(width).in_unit(draught.at.unit.symbol)
    case.add(
        RULE.found(
            f"the plugs sit {draught.at.both()} from the weld, and the heated band reaches "
            f"{reaches.both()}",
            draught.place("at"),
            address=f"{joint.address}/heating",
            others=[Label(heating.place("heated_band"), "the heated band")],
            basis=RULE.basis,
        )
    )
