"""The hardness of one place has one greatest value."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.checking.rules.work.weld_hardness_not_measured import _after
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Hardness

RULE = Rule(
    "K112",
    "hardness-limited-twice",
    "advice",
    summary="Two lines that give the hardness of the same place two greatest values.",
    why="One of them was meant for the heat-affected zone or the base metal, which then goes "
    "unmeasured.",
    fix="Write in each line the place it is meant for, or leave one of them out.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _after(
                "hardness weld at most 225 HBW count 3\n  hardness weld at most 248 HV10 count 3"
            ),
            at="248 HV10",
            says="225 HBW … 248 HV10",
        ),
    ),
    good=(
        Good(
            _after(
                "hardness weld at most 225 HBW count 3\n"
                "  hardness heat-affected zone at most 248 HV10 count 3"
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    first: dict[str, Hardness] = {}
    for block in joint.after:
        for row in block.hardness if block.sound else ():
            if not row.sound or row.at_most is None or row.zone is None:
                continue
            other = first.setdefault(row.zone, row)
            if other is row:
                continue
            case.add(
                RULE.found(
                    f"hardness of the {row.zone} of {joint.name} is at most {other.at_most} in one "
                    f"line and at most {row.at_most} in another",
                    row.place("at_most"),
                    address=f"{joint.address}/after-heat",
                    others=[Label(other.place("at_most"), "the other line")],
                    basis=RULE.basis,
                )
            )
            return
