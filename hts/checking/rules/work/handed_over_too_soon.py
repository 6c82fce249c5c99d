"""A report is handed over after what it reports."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import After

_AFTER = (
    "controller C1 {",
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    "  insulation resistance at least 1 Mohm\n}}\n\nduring heat W12 {{ reading every 1 h }}\n\n"
    "after heat W12 {{\n  hardness weld at most 241 HBW count 3{}\n"
    '  examine "MT" extent "100 %"{}\n  hand over "{}" within {}\n}}\n\ncontroller C1 {{',
)


def _over(hardness: str, tested: str, report: str, within: str) -> tuple[tuple[str, str], ...]:
    return ((_AFTER[0], _AFTER[1].format(hardness, tested, report, within)),)


RULE = Rule(
    "K139",
    "handed-over-too-soon",
    "warning",
    summary="A report to be handed over before the test it reports has to be done, or may be.",
    why="Nobody can keep both: a report is handed over that reports nothing, or the test is hurried.",
    fix="Let it be handed over later, or the test be done sooner.",
    source="arithmetic",
    basis="derived",
    edges=(
        Edge(
            _over(" within 5 d", "", "Hardness report", "{}"),
            keeps="120 h",
            breaks="119 h",
            says="within 119 h, and hardness of W12 may be tested up to 5 d after the heat",
        ),
        Edge(
            _over("", " after 48 h", "MT report", "{}"),
            keeps="48 h",
            breaks="47 h",
            says="within 47 h, and MT of W12 may not be tested before 48 h",
        ),
    ),
    good=(
        Good(_over(" within 5 d", "", "Chart with channel map", "1 d")),
        Good(_over(" within 5 d", " after 48 h", "Hardness report", "10 d")),
    ),
    agrees=(
        Agreement("after heat.hand over.within", "after heat.hardness.within", "no sooner"),
        Agreement("after heat.hand over.within", "after heat.examine.within", "no sooner"),
        Agreement("after heat.hand over.within", "after heat.examine.after", "no sooner"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for block in joint.after:
        for paper in block.hand_over if block.sound else ():
            if paper.within is None:
                continue
            for what, time, words, at in _tests(block):
                named = re.search(rf"\b{re.escape(what)}\b", paper.text, re.IGNORECASE)
                if named and paper.within < time:
                    case.add(
                        RULE.found(
                            f"{paper.text} is handed over within {paper.within}, and {what} of {joint.name} {words} {time}"
                            + (" after the heat" if words.startswith("may be") else ""),
                            paper.place("within"),
                            address=f"{joint.address}/after-heat",
                            others=[Label(at, "the test")],
                            basis=RULE.basis,
                        )
                    )
                    break


def _tests(block: After) -> Iterator[tuple[str, Quantity, str, Span]]:
    """Each time of a test: which test, the time, what it is, and where."""
    for test in block.hardness:
        if test.tested_within is not None:
            yield "hardness", test.tested_within, "may be tested up to", test.place("tested_within")
        if test.after is not None:
            yield "hardness", test.after, "may not be tested before", test.place("after")
    for each in block.examinations:
        if each.within is not None:
            yield each.method, each.within, "may be tested up to", each.place("within")
        if each.after is not None:
            yield each.method, each.after, "may not be tested before", each.place("after")
