"""The cable that carries on from a wire is of no worse class."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_CLASS = ("thermocouples type K class 1", "thermocouples type K class {}")
_CABLE = ("KX class 1", "KX class {}")
#: From the best to the worst; the two standards are not compared.
_RANKS = (("1", "2", "3"), ("special", "standard"))


_COLOURS = ("colours             IEC 60584-3", "colours             ASTM E230")


def _classes(wire: str, cable: str, *more: tuple[str, str]) -> tuple[tuple[str, str], ...]:
    return ((_CLASS[0], _CLASS[1].format(wire)), (_CABLE[0], _CABLE[1].format(cable)), *more)


RULE = Rule(
    "C143",
    "cable-of-worse-class",
    "warning",
    summary="Extension cable of a worse class than the wires it carries on from.",
    why="What was paid for in the wire is lost in the cable: class 2 of KX strays by 2.5 K, class 1 by 1.5 K, "
    "and one of the two classes is perhaps a slip.",
    fix="Take cable of the class of the wire, and correct what is written.",
    source="classes of IEC 60584-3 and limits of error of ASTM E230 (from memory)",
    basis="memory",
    bad=(
        Bad(_classes("1", "2"), at="2", says="cable is of class 2, its wires of class 1"),
        Bad(
            _classes("special", "standard", _COLOURS),
            at="standard",
            says="cable is of class standard, its wires of class special",
        ),
    ),
    good=(
        Good(_classes("2", "2")),
        Good(_classes("special", "special", _COLOURS)),
        Good(((_CABLE[0], "KCB class 2"),)),
    ),
    agrees=(
        Agreement(
            "joint.thermocouples.extension.class",
            "joint.thermocouples.class",
            "the cable is of no worse class",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    cable = block.extension if block is not None else None
    if block is None or cable is None:
        return
    # Compensating cable, as KCA, comes in one class alone.
    if not cable.code.upper().endswith("X"):
        return
    wire, other = block.grade, cable.grade
    for ranks in _RANKS:
        if wire in ranks and other in ranks and ranks.index(other) > ranks.index(wire):
            case.add(
                RULE.found(
                    f"the extension cable is of class {other}, its wires of class {wire}",
                    cable.place("grade"),
                    address=f"{joint.address}/thermocouples",
                    others=[Label(block.place("grade"), "the wires")],
                    basis=RULE.basis,
                )
            )
