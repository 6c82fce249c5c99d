"""Preheat is kept until something that comes, and that does not begin cold."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.preheat import Preheat

_UNTIL = "  keep until        end of welding"
_PURPOSE = "  purpose             stress relief\n"
_COOLED = f"{_PURPOSE}  first cool below 100 degC\n"
_Told = tuple[str, Span, list[Label]]

RULE = Rule(
    "P118",
    "preheat-kept-for-nothing",
    "warning",
    summary="Preheat kept until a bake or a heat treatment that is not there, or that begins only "
    "after the weld has cooled.",
    why="At the end of the shift somebody switches the heaters off because nothing follows, or "
    "keeps them on where the weld has to cool first.",
    fix="Make `keep until`, `when interrupted` and `first cool below` tell one order of work.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_UNTIL, "  keep until        bake"),), at="keep until"),
        Bad(
            ((_UNTIL, "  keep until        post-weld heat treatment"), (_PURPOSE, _COOLED)),
            at="keep until",
        ),
        Bad(
            (
                (
                    "  when interrupted  cool slowly and preheat again",
                    "  when interrupted  bake before cooling",
                ),
            ),
            at="when interrupted",
        ),
    ),
    good=(Good(((_UNTIL, "  keep until        post-weld heat treatment"),)),),
    agrees=(
        Agreement("preheat.keep until", "bake.joints", "what it is kept until comes"),
        Agreement("preheat.keep until", "cycle.first cool below", "they exclude each other"),
        Agreement("preheat.when interrupted", "bake.joints", "the bake it names is there"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound:
        return
    for message, at, others in _contradictions(joint, preheat):
        case.add(
            RULE.found(
                message, at, address=f"{joint.address}/preheat", others=others, basis=RULE.basis
            )
        )


def _contradictions(joint: Joint, preheat: Preheat) -> Iterator[_Told]:
    until, at = preheat.until, preheat.place("until")
    cycles = treated(joint)
    if until == "bake" and not joint.bakes:
        yield f"{joint.name} is kept at preheat until a bake, and is not baked", at, []
    if until == "post-weld heat treatment" and not cycles:
        yield f"{joint.name} is kept at preheat until a heat treatment it does not get", at, []
    if preheat.interrupted == "bake before cooling" and not joint.bakes:
        where = preheat.place("interrupted")
        yield f"{joint.name} is baked when welding stops, and has no bake", where, []
    for cycle in cycles if until == "post-weld heat treatment" else ():
        if cycle.cycle is not None and cycle.cycle.cooled_below is not None:
            cooled = Label(cycle.place("cooled_below"), "it cools first")
            message = f"{joint.name} is kept at preheat until it is heat treated, and cools before"
            yield message, at, [cooled]
