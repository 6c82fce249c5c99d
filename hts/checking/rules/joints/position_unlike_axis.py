"""A pipe is welded in a position that its axis allows."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

#: Positions of girth welds that only one lie of the pipe gives: AWS A3.0 and ISO 6947.
_OF = {
    "horizontal": ("1G", "5G", "PA", "PF", "PG", "PH", "PJ"),
    "vertical": ("2G", "PC"),
}
_WELDING = '"WPS-12" layers multiple'

RULE = Rule(
    "J224",
    "position-unlike-axis",
    "warning",
    summary="A girth weld made in the field in a welding position that its axis does not give, such as "
    "2G on a level pipe.",
    why="Either the axis is wrong, and with it top, bottom and every clock position, or the welding "
    "procedure is not qualified for the weld.",
    fix="Correct the axis or the position.",
    source="AWS A3.0 and ISO 6947: positions of welds in pipe, from memory",
    basis="memory",
    bad=(
        Bad(
            ((_WELDING, f"{_WELDING} position 2G"),),
            at="2G",
            says="position 2G",
        ),
    ),
    good=(
        Good(((_WELDING, f"{_WELDING} position 5G"),)),
        Good(((_WELDING, f"{_WELDING} position 6G"),)),
        # A spool may be welded standing and treated lying.
        Good(((_WELDING, f"{_WELDING} position 2G"), ("made in    field", "made in    shop"))),
    ),
    agrees=(Agreement("joint.welding.position", "joint.axis.lies", "one the axis gives"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry, welding = joint.entry, joint.entry.welding
    lies = entry.axis.lies if entry.axis is not None else None
    if welding is None or not welding.position or lies not in _OF:
        return
    if entry.kind != "girth butt" or entry.made == "shop":
        return
    others = {each for axis, positions in _OF.items() if axis != lies for each in positions}
    if all(position in others for position in welding.position) and entry.axis is not None:
        case.add(
            RULE.found(
                f"{joint.name} is {lies} and welded in position {' and '.join(welding.position)}",
                welding.place("position"),
                address=joint.address,
                others=[Label(entry.axis.place("lies"), "the axis")],
                basis=RULE.basis,
            )
        )
