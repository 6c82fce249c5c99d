"""A line that is to grow is not held fast on both sides of the weld."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.helpers.supports import HOLDER, REST, RESTRAINT, nearest, told_by
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_ROD = 'support    "rod hanger" 1.2 m upstream fixed'
_BOTH = 'support    "{}" 1.2 m upstream {}\n  support    "anchor" 0.8 m downstream {}'
#: What takes the growth along the line up where it is fixed; a rod hanger swings.
_STIFF = (RESTRAINT, REST, HOLDER)

RULE = Rule(
    "N123",
    "held-at-both-ends",
    "warning",
    summary="The nearest supports on both sides of the weld fixed, none of them a hanger, on a line "
    "said to be free to expand.",
    why="Pipe heated between two points that hold it fast bends or crushes itself: at the hold steel "
    "has little strength.",
    fix="Release or guide one of them while the line is hot, or show by a calculation `for support` "
    "that the line bears it.",
    source="AWS D10.10:2021 on supports and expansion; which supports hold is common practice",
    basis="practice",
    bad=(
        Bad(
            ((_ROD, _BOTH.format("pipe shoe", "fixed", "fixed")),),
            at="fixed",
            says="pipe shoe and anchor, both fixed",
        ),
    ),
    good=(
        Good(((_ROD, _BOTH.format("pipe shoe", "guided", "fixed")),)),
        Good(((_ROD, _BOTH.format("pipe shoe", "fixed", "released")),)),
        Good(((_ROD, _BOTH.format("rod hanger", "fixed", "fixed")),)),
        Good(
            (
                (
                    _ROD,
                    _BOTH.format("pipe shoe", "fixed", "fixed")
                    + '\n  calculation "CN-9" for support',
                ),
            )
        ),
    ),
    agrees=(Agreement("joint.expansion", "joint.support.state", "free on one side at least"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if joint.entry.expansion == "restrained" or not treated(joint):
        return
    if any(calculation.of == "support" for calculation in joint.entry.calculations):
        return
    ends = nearest(joint)
    held = [each for each in ends if each.state == "fixed" and told_by(each) in _STIFF]
    if len(held) < 2:
        return
    first, second = held
    case.add(
        RULE.found(
            f"{joint.name} lies between {first.what} and {second.what}, both fixed",
            second.place("state"),
            address=joint.address,
            others=[Label(first.place("state"), first.what)],
            basis=RULE.basis,
        )
    )
