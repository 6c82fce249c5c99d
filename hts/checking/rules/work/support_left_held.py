"""What was locked for the heat is freed after it."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import clauses, denied, named_supports
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.joint import Support
from hts.language.vocabulary.work import After

_TOLD = re.compile(r"\bsupport|\bhanger|\bspring|\bunpin|\bunlock", re.IGNORECASE)
#: What is held, what is freed, and what speaks of another time.
_HELD = re.compile(r"\b(pinned|locked|blocked|clamped)\b", re.IGNORECASE)
_FREED = re.compile(r"\b(un\w+|free|freed|released?|removed|taken|off|out|slack)\b", re.IGNORECASE)
_NOT_FREED = re.compile(r"\bnot (?:yet )?(?:released|freed|free|unpinned|unlocked)$", re.IGNORECASE)
_AT_ANOTHER_TIME = re.compile(
    r"\b(was|were|been|until|till|before|next|when|if|to be|anywhere)\b", re.IGNORECASE
)
_ROD = 'support    "rod hanger" 1.2 m upstream fixed'
_SPRING = (_ROD, 'support    "spring hanger" 1.2 m upstream locked')
_BEFORE = (
    "before heat W12 {\n"
    '  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "Supports as drawn" about supports\n'
    "  insulation resistance at least 1 Mohm\n}\n\nduring heat W12 { reading every 1 h }\n\n"
)


def _after(line: str) -> tuple[str, str]:
    hardness = "hardness weld at most 248 HV10 count 3"
    return (
        "controller C1 {",
        f"{_BEFORE}after heat W12 {{\n  {hardness}\n{line}}}\n\ncontroller C1 {{",
    )


RULE = Rule(
    "K117",
    "support-left-held",
    "warning",
    summary="A support that is locked while the line is hot, and no check after the heat that it is "
    "freed, or one that it is held still.",
    why="A line goes into service on a pinned spring, which cannot follow it and overloads the next "
    "support or a nozzle.",
    fix="Add a check `about supports` to the list after the heat, and who signs it.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (_SPRING, _after('  check "Spring hanger pinned" about supports\n')),
            at='"Spring hanger pinned"',
            says="finds supports held: Spring hanger pinned",
        ),
        Bad(
            (_SPRING, _after('  check "Spring hanger not yet released" about supports\n')),
            at='"Spring hanger not yet released"',
            says="finds supports held: Spring hanger not yet released",
        ),
        Bad(
            (_SPRING, _after("")), at="after heat", says="about its spring hanger, which is locked"
        ),
    ),
    good=(
        Good((_SPRING, _after('  check "Hanger unpinned" about supports\n'))),
        Good((_SPRING, _after('  check "Spring hanger no longer pinned" about supports\n'))),
        Good((_SPRING, _after('  check "Nothing clamped or locked" about supports\n'))),
        # A rod is never slack: only what was locked is freed.
        Good(
            (
                (_ROD, f"{_ROD}\n  {_SPRING[1].replace('1.2', '2.2')}"),
                _after(
                    '  check "Spring hanger free, rod hanger pinned and tight" about supports\n'
                ),
            )
        ),
        Good((_SPRING, _after('  hold point "Spring hangers free" by "Piping engineer"\n'))),
        Good((_after(""),)),
        # What is lent is in the way of the next crew, who ask for it.
        Good(((_ROD, 'support    "chain hoist" 1.2 m upstream temporary'), _after(""))),
    ),
    agrees=(
        Agreement("after heat.check.about", "joint.support.state", "what is held is freed again"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.after or not treated(joint) or not all(block.sound for block in joint.after):
        return
    held = [support for support in joint.entry.supports if support.state == "locked"]
    if held:
        _look_after(case, joint, held)
    if not held or any(_is_about_supports(block) for block in joint.after):
        return
    first = held[0]
    case.add(
        RULE.found(
            f"nothing after the heat of {joint.name} is about its {first.what}, which is locked",
            joint.after[0].place(),
            address=f"{joint.address}/after-heat",
            others=[Label(each.place("state"), each.what) for each in held],
            basis=RULE.basis,
        )
    )


def _look_after(case: Case, joint: Joint, held: list[Support]) -> None:
    """A check after the heat that has supports held as before it."""
    for block in joint.after:
        for item in block.checks:
            if item.about != "supports" or not _finds_held(joint, held, item.text):
                continue
            case.add(
                RULE.found(
                    f"a check after the heat of {joint.name} finds supports held: {item.text}",
                    item.place("text"),
                    address=f"{joint.address}/after-heat",
                    help="let the check find them free, as `Hanger unpinned`",
                )
            )


def _finds_held(joint: Joint, locked: list[Support], text: str) -> bool:
    """Whether a check says plainly that a support is held which was locked for the heat."""
    for clause in clauses(text):
        # What is denied at the head of a sentence is denied of all that it lists.
        held = _HELD.search(clause) and not _FREED.search(clause) and not denied(text)
        if not held and not _NOT_FREED.search(clause):
            continue
        named = named_supports(joint.entry.supports, clause)
        if not _AT_ANOTHER_TIME.search(clause) and any(each in locked for each in named):
            return True
    return False


def _is_about_supports(block: After) -> bool:
    lines = [(check.about, check.text) for check in block.checks]
    for points in (block.hold_points, block.witness_points):
        lines += [(point.about, point.text) for point in points]
    return any(topic == "supports" or _TOLD.search(text) for topic, text in lines)
