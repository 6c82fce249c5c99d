"""What the procedure wants monitored is monitored."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import asked
from hts.checking.rules.helpers.places import along, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import MONITORS, Joint

RULE = Rule(
    "Z130",
    "required-monitor-missing",
    "error",
    summary="Fewer monitoring thermocouples at a place than a procedure requires.",
    why="The owner judges the treatment by what these thermocouples show.",
    fix="Add the thermocouples the procedure requires.",
    source="the procedure that requires them",
    basis="derived",
    bad=(
        Bad(
            (("monitor soak edge count 2", "monitor soak edge count 4"),),
            base="procedure",
            at="thermocouples",
            says="4 at … has 2",
        ),
        Bad(
            (("monitor soak edge count 2", "monitor soak edge count 2 each side"),),
            base="procedure",
            at="thermocouples",
            says="2 at … has 1",
        ),
    ),
    good=(
        Good(
            (("soak edge count 2", "soak edge count 4 when outside_diameter >= 600 mm"),),
            base="procedure",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    if block is None or not joint.thermocouples or not treated(joint):
        return
    heating = joint.entry.heating
    in_furnace = heating is not None and heating.method == "furnace"
    for authority, line in asked(case, limits_of(case, joint), "monitors"):
        # What is heated as a whole has no edge of a band.
        if in_furnace and line.watched in ("soak edge", "heated edge"):
            continue
        there = [
            tc
            for tc in joint.thermocouples
            if tc.duty == MONITORS and tc.entry.monitors == line.watched
        ]
        wanted = line.count or 1
        if line.each_side:
            places = [along(tc) for tc in there]
            have = min(
                sum(1 for place in places if place and place[1] < 0),
                sum(1 for place in places if place and place[1] > 0),
            )
        else:
            have = len(there)
        if have < wanted:
            side = " on each side" if line.each_side else ""
            case.add(
                RULE.found(
                    f"{authority.name} requires {wanted} at the {line.watched}{side}, "
                    f"{joint.name} has {have}",
                    block.place(),
                    address=f"{joint.address}/thermocouples",
                    others=[Label(line.place(), "required here")],
                    help=f"add, for example: T9 monitors {line.watched} at 12:00 …",
                )
            )
