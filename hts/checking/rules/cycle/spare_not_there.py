"""Where a spare takes over, there is one."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import CONTROLS, SPARE, Treatment

#: The base in a furnace, which its own thermocouples control.
_FURNACE = (
    ("heating by resistance", "heating by furnace"),
    (
        "    soak band      by rule\n    heated band    by rule\n    gradient band  by rule\n"
        "    band ratio     5\n"
        "    zone top       from 9:00 to 3:00 power 9 kW heaters 2\n"
        "    zone bottom    from 3:00 to 9:00 power 9 kW heaters 2\n"
        "    gap at         12:00\n",
        "",
    ),
    ("T1   controls top            at", "T1   monitors weld            at"),
    ("channel 1   control channel 1", "channel 1"),
    ("T2   controls bottom         at", "T2   monitors weld            at"),
    ("channel 2   control channel 2", "channel 2"),
    ("monitors soak edge      at 12:00, 40", "monitors base metal     at 12:00, 140"),
    ("monitors soak edge      at 6:00,  40", "monitors base metal     at 6:00,  140"),
    ("monitors heated edge    at 12:00", "monitors base metal     at 12:00"),
    ("monitors heated edge    at 6:00", "monitors base metal     at 6:00"),
)
_SPARES = (
    "    T1S  spare for T1            at 12:10 on weld              channel 7\n"
    "    T2S  spare for T2            at 6:10  on weld              channel 8\n"
)

RULE = Rule(
    "Y146",
    "spare-not-there",
    "warning",
    summary="A cycle that changes to the spare when a thermocouple fails, at a joint without any.",
    why="At temperature nobody can attach another, and what is then done was never decided.",
    fix="Add thermocouples that are `spare for` others, or write `on thermocouple loss stop and repair`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((*_FURNACE, (_SPARES, "")), at="change to the spare", says="W12 has no spare"),),
    good=(
        Good(_FURNACE),
        Good((*_FURNACE, (_SPARES, ""), ("change to the spare", "stop and repair"))),
    ),
    agrees=(
        Agreement(
            "cycle.on thermocouple loss.action",
            "joint.thermocouples.thermocouple.spare for",
            "there is a spare to change to",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    loss, joint = treatment.entry.thermocouple_loss, treatment.joint
    if loss is None or loss.action != "change to the spare" or not joint.sound:
        return
    duties = {tc.duty for tc in joint.thermocouples}
    # One that controls without a spare is told where it stands: missing-spare.
    if not duties or duties & {SPARE, CONTROLS}:
        return
    case.add(
        RULE.found(
            f"{treatment.name} changes to the spare when a thermocouple fails, and {joint.name} has no "
            "spare",
            loss.place("action"),
            address=treatment.address,
            basis=RULE.basis,
        )
    )
