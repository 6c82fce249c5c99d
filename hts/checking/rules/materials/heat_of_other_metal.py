"""A heat number belongs to one metal."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule

_OTHER = 'material bend {{\n  grade "A335 P11"\n  heat number "{}"\n}}\n\njoint W12 {{'

RULE = Rule(
    "M207",
    "heat-of-other-metal",
    "warning",
    summary="One heat number given for two metals, or a side with a heat number that its metal "
    "does not have.",
    why="The certificate looked up by that number is that of another metal.",
    fix="Read the number off the part, and compare it with the certificate.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((("joint W12 {", _OTHER.format("H4471")),), at='"H4471"'),
        Bad(
            (
                (
                    "side branch of pipe NPS 10 wall 21 mm measured",
                    'side branch of pipe NPS 10 wall 21 mm measured heat number "H4417"',
                ),
            ),
            at='"H4417"',
            base="branch",
        ),
    ),
    good=(Good((("joint W12 {", _OTHER.format("L1107")),)),),
    agrees=(
        Agreement("joint.side.heat number", "material.heat number", "is among those of its metal"),
        Agreement("material.heat number", "material.grade", "one heat is of one metal"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    first: dict[str, tuple[str, Span]] = {}
    for material in case.spec.file.materials:
        for number in material.heat_numbers:
            at = material.place("heat_numbers")
            name, place = first.setdefault(number, (material.name, at))
            if name != material.name:
                case.add(
                    RULE.found(
                        f"heat {number} is given for {name} and for {material.name}",
                        at,
                        address=material.name,
                        others=[Label(place, name)],
                        basis=RULE.basis,
                    )
                )
    for joint in case.joints():
        for side in joint.entry.sides:
            metal = side.material.target if side.material is not None else None
            if metal is None or side.heat_number is None:
                continue
            known = metal.heat_numbers
            if known and side.heat_number not in known:
                case.add(
                    RULE.found(
                        f"the {side.name} side is of heat {side.heat_number}, {metal.name} has "
                        f"{', '.join(known)}",
                        side.place("heat_number"),
                        address=joint.address,
                        others=[Label(metal.place("heat_numbers"), "its heats")],
                        basis=RULE.basis,
                    )
                )
