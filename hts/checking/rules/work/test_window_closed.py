"""A test has time between the earliest and the latest moment it may be done."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Examination, Hardness


def _after(said: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", f"after heat W12 {{\n  {said}\n}}\n\ncontroller C1 {{"),)


RULE = Rule(
    "K108",
    "test-window-closed",
    "error",
    summary="A test that may not be done before it is too late for it.",
    why="Nobody can meet both, and one of the two is set aside on site.",
    fix="Correct one of the two times.",
    source="arithmetic: not before the one and at the latest at the other",
    basis="derived",
    edges=(
        Edge(
            _after('examine "MT" after {} within 2 d'),
            keeps="48 h",
            breaks="49 h",
            says="MT … 49 h … 2 d",
        ),
        Edge(
            _after("hardness weld at most 241 HBW count 3 after {} within 1 d"),
            keeps="24 h",
            breaks="25 h",
            says="hardness of the weld … 25 h … 1 d",
        ),
    ),
    good=(Good(_after('examine "MT" after 24 h within 5 d')),),
    agrees=(
        Agreement("after heat.examine.after", "after heat.examine.within", "leaves time between"),
        Agreement("after heat.hardness.after", "after heat.hardness.within", "leaves time between"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for stage in (*joint.before, *joint.during, *joint.after):
        for test in stage.examinations:
            _judge(case, joint, test, test.method, test.within)
    for stage in joint.after:
        for limit in stage.hardness:
            _judge(case, joint, limit, f"hardness of the {limit.zone}", limit.tested_within)


def _judge(
    case: Case, joint: Joint, test: Examination | Hardness, name: str, latest: Quantity | None
) -> None:
    if test.sound and test.after is not None and latest is not None and test.after > latest:
        case.add(
            RULE.found(
                f"{name}: not before {test.after}, and within {latest}",
                test.place("after"),
                address=f"{joint.address}/after-heat",
            )
        )
