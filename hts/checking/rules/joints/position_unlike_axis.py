"""A weld made at its place is welded in the position its pipe lies in."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_WPS = 'welding    "WPS-12" layers multiple'

RULE = Rule(
    "J224",
    "position-unlike-axis",
    "warning",
    summary="A girth butt welded in the field in a position that its pipe does not lie in.",
    why="Pipe that stands is welded at 2G or PC, pipe that lies at 5G, PH or PJ: clock positions, "
    "zones and thermocouples are those of the axis.",
    fix="Correct the axis or the position.",
    source="positions of AWS A3.0 and ISO 6947, from memory",
    basis="memory",
    bad=(
        Bad(
            ((_WPS, 'welding    "WPS-12" position 2G layers multiple'),),
            at="2G",
            says="position 2G, for pipe that stands … horizontal",
        ),
        Bad(
            (
                (
                    'welding    "WPS-03" layers multiple',
                    'welding "WPS-03" position PH layers multiple',
                ),
            ),
            base="preheat",
            at="PH",
            says="position PH, for pipe that lies … vertical",
        ),
    ),
    good=(
        Good(((_WPS, 'welding    "WPS-12" position 5G layers multiple'),)),
        # Qualified for all positions.
        Good(((_WPS, 'welding    "WPS-12" position 6G layers multiple'),)),
        Good(((_WPS, 'welding    "WPS-12" position 2G, 5G layers multiple'),)),
        # Welded standing on the bench, heat treated lying.
        Good(
            (
                (_WPS, 'welding    "WPS-12" position PC layers multiple'),
                ("made in    field", "made in    shop"),
            )
        ),
    ),
    agrees=(Agreement("joint.welding.position", "joint.axis.lies", "as the pipe lies"),),
)

_STANDS = ("2G", "PC")
_LIES = ("1G", "5G", "PA", "PF", "PG", "PH", "PJ", "PK")
#: Positions of the other axis, and of which it is told.
_OTHERS = {
    "horizontal": (_STANDS, "for pipe that stands"),
    "vertical": (_LIES, "for pipe that lies"),
}


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    welding, axis = entry.welding, entry.axis
    if entry.kind != "girth butt" or entry.made != "field" or welding is None or axis is None:
        return
    others, told = _OTHERS.get(axis.lies, ((), ""))
    if not welding.position or any(each not in others for each in welding.position):
        return
    case.add(
        RULE.found(
            f"{joint.name} is welded in position {' and '.join(welding.position)}, {told}, and its "
            f"pipe is {axis.lies}",
            welding.place("position"),
            address=joint.address,
            others=[Label(axis.place("lies"), "the axis")],
            basis=RULE.basis,
        )
    )
