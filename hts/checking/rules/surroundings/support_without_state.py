"""A support says what becomes of it while the line is hot."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.helpers.supports import hangs_in_a_line
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_SUPPORT = 'support    "rod hanger" 1.2 m upstream fixed'

RULE = Rule(
    "N107",
    "support-without-state",
    "advice",
    summary="A support near a heat-treated weld, without its state while hot.",
    why="A spring left free lifts the soft pipe, and one left pinned holds back its expansion.",
    fix="Say whether it is locked, released, fixed, guided or temporary.",
    source="common practice, no source; AWS D10.10:2021 on supports and expansion",
    basis="practice",
    about=("joint.support.state",),
    bad=(
        Bad(((_SUPPORT, 'support    "spring hanger" 1.2 m upstream'),), at="spring hanger"),
        Bad(
            (
                (_SUPPORT, 'support    "spring hanger" 1.2 m upstream'),
                ("made in    field", "made in    shop"),
            ),
            at="spring hanger",
        ),
    ),
    good=(Good(((_SUPPORT, 'support    "spring hanger" 1.2 m upstream locked'),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not treated(joint) or not hangs_in_a_line(joint):
        return
    for support in joint.entry.supports:
        if support.state is None:
            case.add(
                RULE.found(
                    f"nothing says what is done with the {support.what} while {joint.name} is hot",
                    support.place("what"),
                    address=joint.address,
                    basis=RULE.basis,
                )
            )
            return
