"""Hardness is measured at each place that is named."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.base.quantities.clock import ClockError, ClockPosition
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

_CLOCK = re.compile(r"(?<![\d:])\d{1,2}:\d{2}(?![\d:])")
#: A stretch, or a choice: not each of the positions is a place.
_NOT_EACH = re.compile(
    r"\b(?:to|from|between|or|till|until|through)\b|\.\.|\d ?[-\u2013] ?\d", re.IGNORECASE
)
#: What may stand between positions without making two places of one.
_JOINING = re.compile(r"\b(?:and|at|o'clock|positions?|places?)\b", re.IGNORECASE)


def _after(line: str) -> tuple[tuple[str, str], ...]:
    before = (
        "before heat W12 {\n"
        '  check "Each tag warmed by hand" about tag matches channel\n'
        '  check "Bore drained and vented" about drained and vented\n'
        "  insulation resistance at least 1 Mohm\n}\n\nduring heat W12 { reading every 1 h }\n\n"
    )
    block = f"after heat W12 {{\n  hardness weld at most 248 HV10 {line}\n}}\n\n"
    return (("controller C1 {", f"{before}{block}controller C1 {{"),)


RULE = Rule(
    "K120",
    "fewer-tests-than-places",
    "warning",
    summary="Hardness that is measured at fewer places than are named, or at a place that is no "
    "position of the clock, or at one twice.",
    why="Which of the places is left out is then chosen at the pipe, and the hardest goes unmeasured.",
    fix="Let the number and the places agree.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            _after('count {} places "12:00, 3:00, 6:00"'),
            keeps="3",
            breaks="2",
            at="2",
            says="measured 2 times, and 3 places",
        ),
    ),
    bad=(
        Bad(
            _after('count 2 places "12:00, 25:00"'),
            at="25:00",
            says="25:00 is not a position",
        ),
        Bad(
            _after('count 4 places "12:00, 3:00, 6:00, 6:00"'),
            at="6:00, 6:00",
            says="measured at 6:00 twice",
        ),
    ),
    good=(
        Good(_after('count 6 places "12:00, 3:00, 6:00, both sides"')),
        Good(_after('count 2 places "Sketch 2"')),
        # The side makes two places of one position.
        Good(_after('count 4 places "12:00 and 6:00 upstream, 12:00 and 6:00 downstream"')),
        Good(_after('count 4 places "upstream 12:00, 6:00; downstream 12:00, 6:00"')),
        Good(_after('count 1 places "12:00 or 3:00"')),
    ),
    agrees=(Agreement("after heat.hardness.count", "after heat.hardness.places", "one for each"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for block in joint.after:
        for hardness in block.hardness if block.sound else ():
            clocks = _CLOCK.findall(hardness.spots or "")
            odd = next((clock for clock in clocks if not _is_clock(clock)), None)
            if odd is not None:
                message = f"{odd} is not a position of the clock"
                field, others = "spots", []
            elif _NOT_EACH.search(hardness.spots or ""):
                continue
            elif clocks and hardness.count is not None and hardness.count < len(set(clocks)):
                message = (
                    f"hardness of the {hardness.zone} is measured {hardness.count} times, and "
                    f"{len(set(clocks))} places are named"
                )
                field, others = "count", [Label(hardness.place("spots"), "the places")]
            elif twice := _twice(hardness.spots or "", clocks):
                message = f"hardness of the {hardness.zone} is measured at {twice} twice"
                field, others = "spots", []
            else:
                continue
            case.add(
                RULE.found(
                    message,
                    hardness.place(field),
                    address=f"{joint.address}/after-heat",
                    others=others,
                    basis=RULE.basis,
                )
            )


def _twice(text: str, clocks: list[str]) -> str:
    """A position that is named twice; none where other words, such as of sides, stand between them."""
    if re.search(r"[A-Za-z]", _JOINING.sub("", text)):
        return ""
    return next((each for each in clocks if clocks.count(each) > 1), "")


def _is_clock(text: str) -> bool:
    try:
        ClockPosition.read(text)
    except ClockError:
        return False
    return True
