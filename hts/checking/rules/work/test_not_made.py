"""What is handed over and reviewed is of a test that somebody makes, and what examines is a test."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_AFTER = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    "  insulation resistance at least 1 Mohm\n}}\n\n"
    "during heat W12 {{ reading every 1 h }}\n\nafter heat W12 {{\n  hardness weld at most 241 HBW count 3\n"
    '  examine "MT" extent "100 %" accepted\n  {}\n}}\n\ncontroller C1 {{'
)


def _after(line: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _AFTER.format(line)),)


RULE = Rule(
    "K146",
    "test-not-made",
    "warning",
    summary="A report to hand over, or a point of the plan, about a test that no list of the job asks for; an examination that is "
    "not a test.",
    why="The report is asked for on the last day, and nobody has made the test; the test that was made is looked at by nobody.",
    fix="Ask for the test, or name the one that is made.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _after('review point "Chart and radiographs" by "Inspector"'),
            at='"Chart and radiographs"',
            says="about radiographs, which nothing asks to be made",
        ),
        Bad(
            _after('examine "PWHT" extent "10 %" accepted'),
            at='"PWHT"',
            says="PWHT is not a test of the weld",
        ),
    ),
    good=(
        Good(_after('hand over "Hardness report"')),
        Good(_after('review point "Chart and MT report" by "Inspector"')),
        Good(_after('examine "PAUT and TOFD" extent "10 %" accepted')),
    ),
    agrees=(
        Agreement("after heat.hand over.text", "after heat.hardness", "of a test that is made"),
        Agreement("after heat.review point.text", "after heat.examine.method", "of a test that is made"),
    ),
)  # fmt: skip

#: What is spoken of, by words of a sentence, and the tests it is of, by words of their names.
_TESTS = (
    (r"\b(?:radiograph(?:s|y|ic)?|X-rays?|RT)\b", r"\b(?:RT|radio\w*|x-?ray\w*|DR|CR|gamma\w*)\b"),
    (r"\b(?:ultrasonics?|UT|PAUT|TOFD)\b", r"\b(?:UT|PAUT|TOFD|ultrason\w*|phased)\b"),
    (r"\b(?:magnetic particles?|MT)\b", r"\b(?:MT|MPI|magnet\w*)\b"),
    (r"\b(?:penetrants?|dye|PT)\b", r"\b(?:PT|LPI|DPI|penetrant\w*|dye)\b"),
)
_BY_A_PLAN = re.compile(r"\bND[TE]\b|\bplan\b|\bas (?:per|in)\b", re.IGNORECASE)
_HARD = re.compile(r"\bhardness\b", re.IGNORECASE)
#: Abbreviations of the trade that are not tests of a weld.
_NO_TESTS = re.compile(
    r"(?:PWHT|SR|PH|HAZ|WPS|PQR|WPQ|NPS|DN|SMAW|GTAW|SAW|FCAW|GMAW|TC|ISO|ASME|HT|PMT|NA|N/A|none|chart|stress relief|preheat)",
    re.IGNORECASE,
)
#: Of another weld, another day or another test.
_OTHERS = re.compile(
    r"\b(?:mill|works|maker|procedure|qualification|test piece|earlier|previous|shop|if|where|client|owner'?s own|later|before)\b",
    re.IGNORECASE,
)


@RULE.for_spec
def check(case: Case) -> None:
    joints = list(case.joints())
    names = list(_made(joints))
    if not all(names):
        return  # one is not readable: what it is of nobody knows
    made = " ".join(names)
    if _BY_A_PLAN.search(made):
        return
    hardness = any(block.hardness for joint in joints for block in joint.after)
    told: set[int] = set()
    for joint in joints:
        for text, at in _spoken(joint):
            found = _missing(text, made, hardness)
            if found and at.start not in told:
                told.add(at.start)
                message = f"`{text}` is about {found}"
                case.add(
                    RULE.found(message, at, address=f"{joint.address}/checks", basis=RULE.basis)
                )
        for block in (*joint.before, *joint.during, *joint.after):
            for test in block.examinations if block.sound else ():
                at = test.place("method")
                if _NO_TESTS.fullmatch(test.method.strip()) and at.start not in told:
                    told.add(at.start)
                    message = f"{test.method} is not a test of the weld"
                    case.add(
                        RULE.found(message, at, address=f"{joint.address}/checks", basis=RULE.basis)
                    )


def _made(joints: list[Joint]) -> Iterator[str]:
    for joint in joints:
        for block in (*joint.before, *joint.during, *joint.after):
            yield from (test.method for test in block.examinations)
            yield from (item.text for item in block.checks)


def _spoken(joint: Joint) -> Iterator[tuple[str, Span]]:
    for block in joint.after:
        if block.sound:
            yield from ((paper.text, paper.place("text")) for paper in block.hand_over)
            points = (*block.hold_points, *block.witness_points, *block.review_points)
            yield from ((point.text, point.place("text")) for point in points)


def _missing(text: str, made: str, hardness: bool) -> str:
    """Which test a sentence speaks of that is not made; "" for none."""
    if denied(text) or _OTHERS.search(text):
        return ""
    if _HARD.search(text) and not hardness:
        return "hardness, which nothing asks to be measured"
    for spoken, tests in _TESTS:
        found = re.search(spoken, text, 0 if spoken.isupper() else re.IGNORECASE)
        if found is not None and not re.search(tests, made, re.IGNORECASE):
            return f"{found[0]}, which nothing asks to be made"
    return ""
