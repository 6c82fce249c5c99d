"""A joint that is heat treated is measured."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z126",
    "no-thermocouples",
    "error",
    floor="error",
    summary="A joint with a bake or cycle and no thermocouples.",
    why="What is not measured is not controlled, and no record shows what was done.",
    fix="Describe the thermocouples of the joint in a block `thermocouples`.",
    source="ASME B31.3-2012 331.1.6 (thermocouple pyrometers or other suitable means)",
    basis="published",
    bad=(
        Bad(
            (
                (
                    "    T1   controls top            at 12:00 on weld              channel 1   "
                    "control channel 1\n"
                    "    T2   controls bottom         at 6:00  on weld              channel 2   "
                    "control channel 2\n"
                    "    T1S  spare for T1            at 12:10 on weld              channel 7\n"
                    "    T2S  spare for T2            at 6:10  on weld              channel 8\n"
                    "    T3   monitors soak edge      at 12:00, 40 mm downstream    channel 3\n"
                    "    T4   monitors soak edge      at 6:00,  40 mm upstream      channel 4\n"
                    "    T5   monitors heated edge    at 12:00, 287 mm downstream   channel 5\n"
                    "    T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n",
                    "",
                ),
            ),
            at="thermocouples",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if joint.thermocouples or not (treated(joint) or joint.bakes):
        return
    block = joint.entry.thermocouples
    case.add(
        RULE.found(
            f"{joint.name} is to be heated and has no thermocouples",
            block.place() if block is not None else joint.place("names"),
            address=joint.address,
        )
    )
