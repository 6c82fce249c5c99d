"""The crotch of a branch lies along its run."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint

#: The crotch may be read off so far beside the run: half an hour of the clock.
_BESIDE = 15
_CROTCH = "crotch at 12:00"
_ARROW = (
    ("datum      top", "datum      flow arrow"),
    ("zone top       ", "zone front     "),
    ("controls top   ", "controls front "),
    ("zone bottom    ", "zone back      "),
    ("controls bottom", "controls back  "),
)

RULE = Rule(
    "Z158",
    "crotch-off-the-run",
    "warning",
    summary="A crotch at a clock position at which the branch has its flank, where 12:00 points along the run.",
    why="Places about the branch are worked out from the crotch: thermocouples and zones come a quarter "
    "of the way round from where they belong.",
    fix="State the crotch on the side the branch leans to, 12:00 or 6:00, or correct the datum.",
    source="geometry: the branch and its run lie in one plane, and so does the crotch",
    basis="derived",
    edges=(
        Edge(
            (*_ARROW, (_CROTCH, "angle 60 deg crotch at {}")),
            keeps="12:30",
            breaks="12:31",
            base="branch",
            says="has its crotch at 12:31, and 12:00 points along the run",
        ),
        Edge(
            (*_ARROW, (_CROTCH, "angle 60 deg crotch at {}")),
            keeps="5:30",
            breaks="5:29",
            base="branch",
            says="has its crotch at 5:29, and 12:00 points along the run",
        ),
    ),
    agrees=(
        Agreement("joint.branch weld.crotch at", "joint.datum", "along the run, as the arrow is"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    branch = joint.entry.branch
    if branch is None or branch.crotch is None or joint.entry.datum != "flow arrow":
        return
    beside = branch.crotch.degrees % 180
    if min(beside, 180 - beside) <= _BESIDE:
        return
    case.add(
        RULE.found(
            f"the branch of {joint.name} has its crotch at {branch.crotch}, and 12:00 points along the run",
            branch.place("crotch"),
            address=joint.address,
            others=[Label(joint.entry.place("datum"), "the datum")],
        )
    )
