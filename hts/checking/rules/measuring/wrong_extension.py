"""The extension cable fits the type of the thermocouples."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "C102",
    "wrong-extension",
    "error",
    summary="An extension cable of another type than the thermocouples, or of an unknown marking.",
    why="It adds an error that grows with the temperature at the connection.",
    fix="Use the cable marked for the type, such as KX for type K.",
    source="IEC 60584-3 (markings of extension and compensating cables, from memory)",
    basis="memory",
    bad=(
        Bad((("extension           KX class 1", "extension           JX class 1"),), at="JX"),
        Bad((("extension           KX class 1", "extension           KK class 1"),), at="KK"),
    ),
    good=(Good((("extension           KX class 1", "extension           KCA class 2"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    if block is None or block.type is None or block.extension is None:
        return
    code = block.extension.code
    # The usual cable needs no look at the tables.
    if code == f"{block.type}X":
        return
    from hts.science.thermocouples.errors import UnknownName
    from hts.science.thermocouples.extension import extension_codes, extension_fits

    try:
        if extension_fits(block.type, code):
            return
        message = f"cable {code} does not extend type {block.type}"
    except UnknownName:
        message = f"there is no extension cable marked {code}"
    case.add(
        RULE.found(
            message,
            block.extension.place("code"),
            address=f"{joint.address}/thermocouples",
            others=[Label(block.place("type"), "the type attached")],
            help=f"for type {block.type} there are {', '.join(extension_codes(block.type))}",
            basis=RULE.basis,
        )
    )
