"""The edge of the soak band is watched."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.edges import edge_monitors, watched
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z117",
    "soak-edge-unmonitored",
    "warning",
    summary="No thermocouple at the edge of the soak band of a locally heated weld.",
    why="It is the coldest place that has to reach the range, and without a reading there nothing "
    "shows that it did.",
    fix="Monitor the edge of the soak band, preferably on both sides of the weld.",
    source="common practice, no source; AWS D10.10:2021 describes the bands",
    basis="practice",
    bad=(
        Bad(
            (
                ("    T3   monitors soak edge      at 12:00, 40 mm downstream    channel 3\n", ""),
                ("    T4   monitors soak edge      at 6:00,  40 mm upstream      channel 4\n", ""),
            ),
            at="thermocouples",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if watched(case, joint, "soak edge") and not edge_monitors(joint, "soak edge"):
        width = joint.entry.heating.place("soak_band") if joint.entry.heating else None
        assert joint.entry.thermocouples is not None and width is not None
        case.add(
            RULE.found(
                f"nothing monitors the edge of the soak band of {joint.name}",
                joint.entry.thermocouples.place(),
                address=f"{joint.address}/thermocouples",
                others=[Label(width, "the band")],
                help="add, for example: T9 monitors soak edge at 12:00, … mm downstream",
            )
        )
