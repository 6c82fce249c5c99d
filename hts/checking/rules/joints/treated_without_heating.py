"""A joint that is heat treated says how it is heated."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "J204",
    "treated-without-heating",
    "error",
    floor="error",
    summary="A joint with a bake or cycle that does not say how it is heated.",
    why="Bands, zones and power are left to whoever is on site.",
    fix="Describe the heaters of the joint in a block `heating by …`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    '  heating by resistance accepted by "Owner\'s engineer" {\n'
                    "    soak band      by rule\n"
                    "    heated band    by rule\n"
                    "    gradient band  by rule\n"
                    "    band ratio     5\n"
                    "    zone top       from 9:00 to 3:00 power 9 kW heaters 2\n"
                    "    zone bottom    from 3:00 to 9:00 power 9 kW heaters 2\n"
                    "    gap at         12:00\n"
                    '    insulation     "ceramic fibre blanket" thickness 50 mm layers 2\n'
                    "    ends           closed and vented\n"
                    "    bore           drained and dry\n"
                    "  }\n"
                    "\n",
                    "",
                ),
                (
                    "T1   controls top            at 12:00 on weld              channel 1   "
                    "control channel 1",
                    "T1   monitors weld at 12:00 on weld channel 1",
                ),
                (
                    "T2   controls bottom         at 6:00  on weld              channel 2   "
                    "control channel 2",
                    "T2   monitors weld at 6:00 on weld channel 2",
                ),
            ),
            at="W12",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if joint.entry.heating is None and (treated(joint) or joint.bakes):
        case.add(
            RULE.found(
                f"{joint.name} is to be heated, but nothing says how",
                joint.place("names"),
                address=joint.address,
            )
        )
