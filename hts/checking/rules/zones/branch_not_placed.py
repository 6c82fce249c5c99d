"""Places about a branch follow from how it stands on its run, which the text has to tell."""

from __future__ import annotations

from hts.base.arguments import NotCovered
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.branching import NotPlaced, branching
from hts.language.model.joint import Joint

RULE = Rule(
    "Z135",
    "branch-not-placed",
    "warning",
    summary="Thermocouples round a branch that cannot be placed because the position of the "
    "branch is not stated.",
    why="The weld of a branch rises and falls round it: where the clock positions lie along the "
    "run, and at what angle and offset the branch stands, decide every length measured with the "
    "tape.",
    fix="State diameters, angle, offset and the clock position of the crotch: `branch weld … angle "
    "45 deg crotch at 12:00`.",
    source="geometry: the curve in which two cylinders meet",
    basis="derived",
    bad=(
        Bad((("10 mm crotch at 12:00", "10 mm"),), at="branch weld", base="branch"),
        Bad((("at 12:00\n", "at 12:00 offset 60 mm toward 3:00\n"),), at="", base="branch"),
        Bad(
            (
                (
                    "287 mm on run     channel 6",
                    "287 mm on run     channel 6\n"
                    "    T7   monitors base metal     at 3:00,  700 mm on run     channel 9",
                ),
            ),
            at="700 mm on run",
            base="branch",
            says="700 mm (27.56 in) … 3:00 is",
        ),
    ),
    good=(Good((("10 mm crotch", "10 mm angle 60 deg crotch"),), base="branch"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    placed = [tc for tc in joint.thermocouples if tc.entry.offset and tc.position is not None]
    if entry.kind != "branch" or not placed:
        return
    stands = branching(joint)
    if isinstance(stands, NotPlaced):
        case.add(
            RULE.found(
                f"{joint.name}: {stands.why}",
                (entry.branch or entry).place(),
                address=joint.address,
                help=f"write {stands.entry}" if stands.entry else "",
            )
        )
        return
    for tc in placed:
        offset, position = tc.entry.offset, tc.position
        if offset is None or position is None or offset.side != "on run":
            continue
        try:
            turn = stands.turn(float(position.degrees))
            stands.crossing.place_on_run(turn, float(offset.distance.value))
        except NotCovered:
            case.add(
                RULE.found(
                    f"{tc.tag}: {offset.distance.both()} on run at {position} is more than half "
                    f"way round the run",
                    tc.place("offset"),
                    address=tc.address,
                )
            )
