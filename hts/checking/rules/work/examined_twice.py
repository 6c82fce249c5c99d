"""Each examination of a list is another one, and its report is its own."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Examination

#: Abbreviations of tests that numbers of reports begin with.
_TESTS = ("MT", "PT", "RT", "UT", "VT", "ET", "LT", "PAUT", "TOFD")
_BEFORE = (
    "before heat W12 {\n"
    '  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    "  insulation resistance at least 1 Mohm\n"
)
_AFTER = "after heat W12 {\n  hardness weld at most 248 HV10 count 3\n"


def _lists(before: str, after: str) -> tuple[str, str]:
    text = (
        f"{_BEFORE}{before}}}\n\nduring heat W12 {{ reading every 1 h }}\n\n{_AFTER}{after}}}\n\n"
    )
    return ("controller C1 {", f"{text}controller C1 {{")


_MT = '  examine "MT" extent "100 %" accepted\n'

RULE = Rule(
    "K118",
    "examined-twice",
    "warning",
    summary="The same examination twice in one list, or a report whose number is that of another test.",
    why="One of the two was another test: it is done by nobody.",
    fix="Write the test that is meant, or leave the line out.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((_lists("", _MT + _MT),), at="MT", says="MT is asked for twice"),
        Bad(
            (_lists('  examine "MT" extent "100 %" accepted report "RT-0388"\n', ""),),
            at="RT-0388",
            says="MT has the report RT-0388",
        ),
    ),
    good=(
        Good((_lists("", _MT + '  examine "UT" extent "100 %" accepted\n'),)),
        Good((_lists("", _MT + '  examine "MT" extent "10 %" after 48 h accepted\n'),)),
        Good((_lists('  examine "MT" extent "100 %" accepted report "MT-0388"\n', _MT),)),
    ),
    agrees=(
        Agreement(
            "after heat.examine.report", "after heat.examine.method", "a report of that test"
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for stage, blocks in (
        ("before-heat", joint.before),
        ("during-heat", joint.during),
        ("after-heat", joint.after),
    ):
        for block in blocks:
            seen: dict[tuple[object, ...], Examination] = {}
            for test in block.examinations if block.sound else ():
                address = f"{joint.address}/{stage}"
                _report(case, test, address)
                key = (test.method, test.extent, str(test.after), str(test.within), test.report)
                other = seen.setdefault(key, test)
                if other is not test:
                    case.add(
                        RULE.found(
                            f"{test.method} is asked for twice",
                            test.place("method"),
                            address=address,
                            others=[Label(other.place("method"), "the other line")],
                            basis=RULE.basis,
                        )
                    )


def _report(case: Case, test: Examination, address: str) -> None:
    """A report that begins with the letters of another test."""
    begins = re.match(r"[A-Za-z]+", test.report or "")
    if begins is None or test.method.upper() not in _TESTS:
        return
    if begins[0].upper() in _TESTS and begins[0].upper() != test.method.upper():
        case.add(
            RULE.found(
                f"{test.method} has the report {test.report}",
                test.place("report"),
                address=address,
                others=[Label(test.place("method"), "the test")],
                basis=RULE.basis,
            )
        )
