"""Class of the wire, class of its cable and colours belong to one standard."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

#: What the classes are called in each standard.
_STANDARDS = {
    "1": "IEC 60584",
    "2": "IEC 60584",
    "3": "IEC 60584",
    "standard": "ASTM E230",
    "special": "ASTM E230",
}

RULE = Rule(
    "C113",
    "mixed-standards",
    "warning",
    summary="Wire of a tolerance class of one standard with the colour code of another.",
    why="Red is the negative leg in ASTM E230 and marks no leg in IEC 60584-3: pairs get reversed.",
    fix="State the colours of the standard the wire and cable are bought to.",
    source="IEC 60584-1 and -3 (classes 1 to 3), ASTM E230 (standard and special), from memory",
    basis="memory",
    bad=(
        Bad(
            (("colours             IEC 60584-3", "colours             ASTM E230"),), at="ASTM E230"
        ),
        Bad((("type K class 1 gauge", "type K class special gauge"),), at="IEC 60584-3"),
    ),
    good=(
        Good(
            (
                ("colours             IEC 60584-3", "colours             ASTM E230"),
                ("type K class 1 gauge", "type K class special gauge"),
                ("KX class 1", "KX class special"),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    if block is None or block.colours is None:
        return
    for entry, what in ((block, "wire"), (block.extension, "cable")):
        if entry is None or entry.grade is None:
            continue
        standard = _STANDARDS[entry.grade]
        if not block.colours.startswith(standard):
            case.add(
                RULE.found(
                    f"the colours are those of {block.colours}, but class {entry.grade} of the "
                    f"{what} is one of {standard}",
                    block.place("colours"),
                    address=f"{joint.address}/thermocouples",
                    others=[Label(entry.place("grade"), f"class of the {what}")],
                    basis=RULE.basis,
                )
            )
            return
