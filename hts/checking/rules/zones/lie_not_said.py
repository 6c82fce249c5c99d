"""A joint whose places are told by the clock says how its axis lies."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_LIES = "  axis       horizontal\n"
#: Widths of an owner alone: no limit in force asks how the pipe lies.
_OWN = (
    (
        "asme-b31.3 edition 2018, local-heating",
        "asme-b31.3 edition 2018\n  follows      P-07",
    ),
    ("heated band    by rule", "heated band    576 mm total"),
    ("gradient band  by rule", "gradient band  1 m total"),
    (
        "recorder R1 {",
        """\
procedure P-07 "Widths of local heating" {
  revision       2 on 2026-03-01 status for construction
  heated band    at least 500 mm total
  gradient band  at least 900 mm total
}

recorder R1 {""",
    ),
)

RULE = Rule(
    "Z150",
    "lie-not-said",
    "warning",
    summary="A weld heat treated all round a pipe that does not say whether the pipe lies or stands.",
    why="On a pipe that lies the bottom stays colder than the top: nothing asks then for zones and "
    "thermocouples there.",
    fix="Write `axis horizontal`, `axis vertical` or how it slopes.",
    source="AWS D10.10:2021 6.6: control at top and bottom of pipe that lies",
    basis="published",
    bad=(Bad(((_LIES, ""), *_OWN), at="12:00"),),
    good=(Good(_OWN),),
    agrees=(Agreement("joint.axis", "joint.thermocouples.thermocouple.at", "stated with a clock"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if entry.axis is not None or entry.says("axis") or not goes_round(joint):
        return
    placed = next((tc for tc in joint.thermocouples if tc.position is not None), None)
    if placed is None or not treated(joint) or not entry.sound:
        return
    # Where a limit hangs on it and nothing else answers, that is told.
    if any(
        "axis" in item.names
        for governing in limits_of(case, joint).governing.values()
        for item in governing.unanswered
    ):
        return
    case.add(
        RULE.found(
            f"nothing says how the axis of {joint.name} lies, and its places are told by the clock",
            placed.place("at"),
            address=joint.address,
            others=[Label(joint.place("names"), "the joint")],
        )
    )
