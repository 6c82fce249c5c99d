"""What checks say of a support is what the joint says of it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import clauses, denied, named_supports
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.joint import Support

_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "{}" about supports\n'
    "  insulation resistance at least 1 Mohm\n}}\n\ncontroller C1 {{"
)
_ROD = '  support    "rod hanger" 1.2 m upstream fixed\n'
_SHOE = '  support    "pipe shoe" 0.8 m downstream {}\n'


def _checked(text: str, *more: tuple[str, str]) -> tuple[tuple[str, str], ...]:
    return (*more, ("controller C1 {", _CHECKS.format(text)))


RULE = Rule(
    "K122",
    "check-unlike-support",
    "warning",
    summary="A check that finds a support free to slide which the joint holds fixed or locked, or that "
    "has it carry the branch where it stands on the run.",
    why="Who checks goes by the words, who calculated the line by the entry: it is held where it has to "
    "grow, or carried where nothing hangs.",
    fix="Correct the check or the support.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _checked("Shoe free to slide", (_ROD, _ROD + _SHOE.format("fixed"))),
            at='"Shoe free to slide"',
            says="finds pipe shoe free to slide, which is fixed",
        ),
        Bad(
            (
                (
                    'support    "rod hanger" 1.2 m on run fixed',
                    'support    "chain hoist" 1.2 m on run temporary',
                ),
                ("controller C1 {", _CHECKS.format("Hoist carries the branch")),
            ),
            at='"Hoist carries the branch"',
            base="branch",
            says="has chain hoist carry the branch, and it is on run",
        ),
    ),
    good=(
        Good(_checked("Shoe free to slide", (_ROD, _ROD + _SHOE.format("guided")))),
        Good(_checked("Rod hanger as drawn", (_ROD, _ROD + _SHOE.format("fixed")))),
        Good(_checked("Shoe not free to slide", (_ROD, _ROD + _SHOE.format("fixed")))),
        Good(
            (
                (
                    'support    "rod hanger" 1.2 m on run fixed',
                    'support    "saddle" 1.2 m on run fixed\n  support    "chain hoist" 1 m on branch temporary',
                ),
                (
                    "controller C1 {",
                    _CHECKS.format("Hoist carries the branch, saddle carries the header"),
                ),
            ),
            base="branch",
        ),
    ),
    agrees=(
        Agreement("before heat.check.text", "joint.support.state", "what slides is not held"),
        Agreement("before heat.check.text", "joint.support.where", "carries where it stands"),
    ),
)

_FREE = re.compile(r"\bfree to (slide|move|grow)\b", re.IGNORECASE)
_CARRIES = re.compile(r"\b(?:carr(?:y|ies)|takes|holds) the (branch|run|header)\b", re.IGNORECASE)
_SIDES = {"branch": "on branch", "run": "on run", "header": "on run"}


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.entry.supports or not treated(joint):
        return
    for block in (*joint.before, *joint.during):
        for item in block.checks if block.sound else ():
            for support, wrong in (
                each for part in clauses(item.text) for each in _wrong(joint, part)
            ):
                case.add(
                    RULE.found(
                        f"a check of {joint.name} {wrong}",
                        item.place("text"),
                        address=f"{joint.address}/checks",
                        others=[Label(support.place(), support.what)],
                        basis=RULE.basis,
                    )
                )
                break


def _wrong(joint: Joint, clause: str) -> Iterator[tuple[Support, str]]:
    supports = joint.entry.supports
    if denied(clause):
        return
    if _FREE.search(clause):
        for support in named_supports(supports, clause):
            if support.state in ("fixed", "locked"):
                yield support, f"finds {support.what} free to slide, which is {support.state}"
    carried = _CARRIES.search(clause)
    if carried is None or joint.entry.kind != "branch":
        return
    carried_part = carried[1].lower()
    # Who carries stands before the verb.
    for support in named_supports(supports, clause[: carried.start()]):
        side = support.where.side
        if side in _SIDES.values() and side != _SIDES[carried_part]:
            yield support, f"has {support.what} carry the {carried_part}, and it is {side}"
