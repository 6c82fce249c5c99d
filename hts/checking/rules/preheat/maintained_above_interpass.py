"""While welding is interrupted the joint stays below the interpass temperature."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

_WIDTH = "  width             75 mm each side"

RULE = Rule(
    "P115",
    "maintained-above-interpass",
    "error",
    summary="A temperature to be kept during interruptions that is not below the interpass "
    "maximum.",
    why="Welding could not go on until the joint has cooled.",
    fix="Keep the joint between preheat and interpass temperature.",
    source="arithmetic: the two temperatures",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  width             75 mm each side",
                    "  maintain at least {}\n  width             75 mm each side",
                ),
            ),
            keeps="314 degC",
            breaks="315 degC",
            says="315 degC (599 degF) … 315 degC (599 degF)",
        ),
    ),
    good=(Good(((_WIDTH, f"  maintain at least 150 degC\n{_WIDTH}"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or preheat.maintain is None or preheat.interpass is None:
        return
    most = limits_of(case, joint).interpass()
    if most is not None and preheat.maintain >= most:
        case.add(
            RULE.found(
                f"{joint.name} is kept at {preheat.maintain.both()} or above, and the next pass "
                f"goes on at {most.both()} or below",
                preheat.place("maintain"),
                address=f"{joint.address}/preheat",
                others=[Label(preheat.interpass.place("at_most"), "the interpass temperature")],
            )
        )
