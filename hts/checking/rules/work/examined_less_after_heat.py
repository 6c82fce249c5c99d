"""Where the service makes welds crack, as much is examined after the heat as before it."""

from __future__ import annotations

import re
from fractions import Fraction

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Examination

#: Services in which a crack that is left is found by the leak.
_CRACKING = (
    "wet hydrogen sulphide",
    "amine",
    "caustic",
    "carbonate",
    "ammonia",
    "hydrogen",
    "lethal",
)
_SHARE = re.compile(r"(\d+(?:\.\d+)?) ?%")
_SERVICE = ("  expansion  free\n", "  expansion  free\n  service    amine\n")
_LISTS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    "  insulation resistance at least 1 Mohm\n"
    '  examine "MT" extent "{}" accepted\n}}\n\n'
    'during heat W12 {{\n  reading every 1 h\n}}\n\nafter heat W12 {{\n  hardness weld at most 225 HBW count 3\n  examine "MT" extent "{}" accepted\n}}\n\ncontroller C1 {{'
)


def _lists(before: str, after: str) -> tuple[tuple[str, str], ...]:
    return (_SERVICE, ("controller C1 {", _LISTS.format(before, after)))


RULE = Rule(
    "K129",
    "examined-less-after-heat",
    "warning",
    summary="A weld for a service that makes it crack, of which less is examined by the same test after "
    "the heat than before it.",
    why="Cracks open in the heat and after it: what was examined before says nothing of them, and such a "
    "service finds what is left.",
    fix="Examine as much after the heat, or less before.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            _lists("100 %", "{}"),
            keeps="100 %",
            breaks="99 %",
            says="MT of 100 % before the heat of W12 and of 99 % after it",
        ),
    ),
    good=(
        Good(_lists("10 %", "100 %")),
        Good(_lists("100 %", "spot")),
        Good(_lists("100 %", "10 %")[1:]),
    ),
    agrees=(
        Agreement("after heat.examine.extent", "before heat.examine.extent", "no less by one test"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not treated(joint) or not set(joint.entry.service) & set(_CRACKING):
        return
    before = [test for block in joint.before if block.sound for test in block.examinations]
    after = [test for block in joint.after if block.sound for test in block.examinations]
    for test in after:
        share, extents = (
            _share(test),
            [_share(first) for first in before if first.method == test.method],
        )
        most = max((each for each in extents if each is not None), default=None)
        if share is None or most is None or share >= most:
            continue
        first = next(each for each in before if each.method == test.method and _share(each) == most)
        others_after = [_share(each) for each in after if each.method == test.method]
        if any(each is not None and each >= most for each in others_after):
            continue
        case.add(
            RULE.found(
                f"{test.method} of {first.extent} before the heat of {joint.name} and of {test.extent} after "
                "it",
                test.place("extent"),
                address=f"{joint.address}/after-heat",
                others=[Label(first.place("extent"), "before the heat")],
                basis=RULE.basis,
            )
        )
        return


def _share(test: Examination) -> Fraction | None:
    found = _SHARE.fullmatch((test.extent or "").strip())
    return Fraction(found[1]) if found is not None else None
