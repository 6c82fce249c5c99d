"""The state of a support is one that a support of its kind can have."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.helpers.supports import (
    HANGER,
    HOLDER,
    LENT,
    REST,
    RESTRAINT,
    SPRING,
    told_by,
)
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_ROD = 'support    "rod hanger" 1.2 m upstream fixed'
#: States that fit what the words tell, and what is wrong with any other.
_FITTING = {
    SPRING: (("locked",), "its spring follows the soft pipe unless it is locked"),
    LENT: (("temporary",), "it is taken away afterwards, so it is temporary"),
    HANGER: (("fixed", "guided"), "it carries the hot pipe as it does the cold one"),
    # Released, the line may slide on it.
    REST: (("fixed", "guided", "released"), "it has no spring to lock, and it stays"),
    RESTRAINT: (("fixed", "guided", "released"), "it has no spring to lock, and it stays"),
    HOLDER: (("fixed", "guided", "released", "temporary"), "it has no spring to lock"),
}

RULE = Rule(
    "N117",
    "support-in-other-state",
    "warning",
    summary="A support in a state that does not fit what it is: a spring hanger that is not locked, "
    "a temporary support that stays, a hanger let go, anything else that is locked or taken away.",
    why="A spring left free lifts the soft pipe, one that stays locked holds back the line in "
    "service, and a support let go drops it.",
    fix="Write the state it is in while the line is hot; where another is meant, show by a "
    "calculation `for support` that the line bears it.",
    source="common practice, no source; AWS D10.10:2021 on supports and expansion",
    basis="practice",
    bad=(
        Bad(
            ((_ROD, 'support    "spring hanger" 1.2 m upstream released'),),
            at="released",
            says="spring hanger is released",
        ),
        Bad(((_ROD, 'support    "chain hoist" 1.2 m upstream fixed'),), at="fixed"),
        Bad(((_ROD, 'support    "rod hanger" 1.2 m upstream locked'),), at="locked"),
        Bad(((_ROD, 'support    "anchor" 1.2 m upstream temporary'),), at="temporary"),
    ),
    good=(
        Good(((_ROD, 'support    "variable spring hanger" 1.2 m upstream locked'),)),
        Good(((_ROD, 'support    "temporary rod hanger" 1.2 m upstream temporary'),)),
        Good(((_ROD, 'support    "anchor" 1.2 m upstream released'),)),
        Good(((_ROD, 'support    "clamp" 1.2 m upstream temporary'),)),
        Good(((_ROD, 'support    "stand with jack bolts" 1.2 m upstream fixed'),)),
        Good(((_ROD, 'support    "pipe shoe" 1.2 m upstream released'),)),
        Good(
            (
                (
                    _ROD,
                    'support    "spring hanger" 1.2 m upstream released\n'
                    '  calculation "CN-9" for support',
                ),
            )
        ),
    ),
    agrees=(
        Agreement("joint.support.what", "joint.support.state", "a state the support can have"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.entry.supports or not treated(joint):
        return
    if any(calculation.of == "support" for calculation in joint.entry.calculations):
        return
    for support in joint.entry.supports:
        kind = told_by(support)
        if support.state is None or not kind or support.state in _FITTING[kind][0]:
            continue
        case.add(
            RULE.found(
                f"{support.what} is {support.state}; {_FITTING[kind][1]}",
                support.place("state"),
                address=joint.address,
                others=[Label(support.place("what"), "the support")],
                basis=RULE.basis,
            )
        )
