"""No more is tested than there is."""

from __future__ import annotations

import re
from fractions import Fraction

from hts.base.quantities.number import read_number
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Examination, Hardness

_SHARE = re.compile(r"\s*(\d{1,6}(?:\.\d{1,6})?)\s?%")
_HARDNESS = "  hardness weld at most 248 HV10 count 3"


def _after(more: str) -> tuple[tuple[str, str], ...]:
    before = (
        'before heat W12 {\n  check "Each tag warmed by hand" about tag matches channel\n'
        '  check "Bore drained and vented" about drained and vented\n'
        "  insulation resistance at least 1 Mohm\n}\n\nduring heat W12 { reading every 1 h }\n\n"
    )
    block = f"after heat W12 {{\n{_HARDNESS}{more}\n}}\n\n"
    return (("controller C1 {", f"{before}{block}controller C1 {{"),)


RULE = Rule(
    "K125",
    "share-over-whole",
    "warning",
    summary="An examination or a hardness test of more than the whole, or of nothing.",
    why="The figure is a slip, and whoever tests has to guess which share was meant.",
    fix="Write the share that is meant, up to 100 %.",
    source="arithmetic: a share is at most the whole",
    basis="derived",
    edges=(
        Edge(
            _after('\n  examine "MT" extent "{}" accepted'),
            keeps="100 %",
            breaks="101 %",
            at='"101 %"',
            says="MT is asked for on 101 %",
        ),
    ),
    bad=(
        Bad(_after(' extent "0 %"'), at='"0 %"', says="hardness of the weld is asked for on 0 %"),
    ),
    good=(Good(_after('\n  examine "MT" extent "100 % and 25 mm each side" accepted')),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for stage, blocks in (
        ("before-heat", joint.before),
        ("during-heat", joint.during),
        ("after-heat", joint.after),
    ):
        for block in blocks:
            if not block.sound:
                continue
            tests: list[Examination | Hardness] = [*block.examinations]
            tests += getattr(block, "hardness", [])
            for test in tests:
                _look(case, test, f"{joint.address}/{stage}")


def _look(case: Case, test: Examination | Hardness, address: str) -> None:
    share = _SHARE.match(test.extent or "")
    if share is None or 0 < Fraction(read_number(share[1])) <= 100:
        return
    what = test.method if isinstance(test, Examination) else f"hardness of the {test.zone}"
    case.add(
        RULE.found(
            f"{what} is asked for on {share[1]} % of what there is",
            test.place("extent"),
            address=address,
            basis=RULE.basis,
        )
    )
