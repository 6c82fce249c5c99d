"""The edge of the heated band is watched."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.edges import edge_monitors, watched
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z118",
    "heated-edge-unmonitored",
    "warning",
    summary="No thermocouple at the edge of the heated band of a locally heated weld.",
    why="The fall of temperature along the pipe, which bends and strains it, shows only there.",
    fix="Monitor the edge of the heated band, preferably on both sides of the weld.",
    source="common practice, no source; AWS D10.10:2021 describes the bands",
    basis="practice",
    bad=(
        Bad(
            (
                ("    T5   monitors heated edge    at 12:00, 287 mm downstream   channel 5\n", ""),
                ("    T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n", ""),
            ),
            at="thermocouples",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if watched(case, joint, "heated edge") and not edge_monitors(joint, "heated edge"):
        width = joint.entry.heating.place("heated_band") if joint.entry.heating else None
        assert joint.entry.thermocouples is not None and width is not None
        case.add(
            RULE.found(
                f"nothing monitors the edge of the heated band of {joint.name}",
                joint.entry.thermocouples.place(),
                address=f"{joint.address}/thermocouples",
                others=[Label(width, "the band")],
                help="add, for example: T9 monitors heated edge at 12:00, … mm downstream",
            )
        )
