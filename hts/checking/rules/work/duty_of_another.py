"""Supports are freed again, and by the role that answers for them."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.job import Responsibility

_SHOW = "  show         SI and US\n"
_SPRING = (
    'support    "rod hanger" 1.2 m upstream fixed',
    'support "spring hanger" 1.2 m upstream locked',
)
_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "Hanger pinned" about supports by "{}"\n  insulation resistance at least 1 Mohm\n}}\n\n'
    "during heat W12 {{ reading every 1 h }}\n\n"
    "after heat W12 {{\n  hardness weld at most 241 HBW count 3\n"
    '  check "Hanger released" about supports by "{}"\n}}\n\ncontroller C1 {{'
)


def _held(duty: str, before: str, after: str) -> tuple[tuple[str, str], ...]:
    return (
        (_SHOW, f'{_SHOW}  responsibility "Piping engineer" "{duty}"\n'),
        _SPRING,
        ("controller C1 {", _CHECKS.format(before, after)),
    )


RULE = Rule(
    "K137",
    "duty-of-another",
    "warning",
    summary="A responsibility by which supports stay held after the heat, or a check of supports signed by another role "
    "than answers for them, where one of the other stage is signed by that role.",
    why="Each of the two takes it for the other's: a line goes into service on a pinned spring.",
    fix="Let the role that pins the supports free them and sign for it.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _held(
                "Pins the spring hangers, which stay pinned", "Piping engineer", "Piping engineer"
            ),
            at="which stay pinned",
            says="by the duties of Piping engineer supports stay pinned",
        ),
        Bad(
            _held("Pins the spring hangers and releases them", "Piping engineer", "Inspector"),
            at='"Inspector"',
            says="is signed by Inspector, and by its duties Piping engineer answers for them",
        ),
    ),
    good=(
        Good(
            _held("Pins the spring hangers and releases them", "Piping engineer", "Piping engineer")
        ),
        Good(
            _held(
                "Pins the hangers, which stay pinned until the weld is cold",
                "Piping engineer",
                "Piping engineer",
            )
        ),
        Good(_held("Sees that no hanger stays pinned", "Piping engineer", "Inspector")),
        # Both stages by another: an inspector looks at what the engineer does.
        Good(_held("Pins the spring hangers and releases them", "Inspector", "Inspector")),
    ),
    agrees=(
        Agreement("job.responsibility.duty", "joint.support.state", "what is held is freed again"),
        Agreement("after heat.check.by", "job.responsibility.role", "signed by who answers for it"),
    ),
)

_STAY = re.compile(
    r"\b(?:stays?|remains?|left|leaves?|keeps?|kept)\b(?: them| it| the \w+| \w+ hangers?)? (pinned|locked|blocked|held)\b",
    re.IGNORECASE,
)
_FOR_A_TIME = re.compile(
    r"\b(?:until|till|while|during|before|as long as|for the heat)\b", re.IGNORECASE
)
_SUPPORTS = re.compile(
    r"\b(?:pins?|locks?|frees?|releases?)\b.*\b(?:hangers?|springs?|supports?)\b", re.IGNORECASE
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    duties = [
        each
        for each in (job.responsibilities if job is not None else ())
        if each.sound and isinstance(each.duty, str)
    ]
    if not duties:
        return
    held = [
        joint
        for joint in case.joints()
        if treated(joint) and any(each.state == "locked" for each in joint.entry.supports)
    ]
    for joint in held[:1]:
        _left(case, joint, duties)
    answering = [each for each in duties if _SUPPORTS.search(each.duty) and not denied(each.duty)]
    if len({each.role for each in answering}) == 1:
        for joint in held:
            _signed(case, joint, answering[0])


def _left(case: Case, joint: Joint, duties: list[Responsibility]) -> None:
    for each in duties:
        found = _STAY.search(each.duty)
        if found is None or denied(each.duty) or _FOR_A_TIME.search(each.duty):
            continue
        case.add(
            RULE.found(
                f"by the duties of {each.role} supports stay {found[1]} after the heat",
                each.place("duty"),
                address=f"{joint.address}/checks",
                others=[Label(joint.place("supports"), "supports")],
                basis=RULE.basis,
            )
        )


def _signed(case: Case, joint: Joint, duty: Responsibility) -> None:
    """Tells of a check of supports signed by another, where the role signs one of the other stage."""
    stages = [
        [item for block in blocks for item in block.checks if item.about == "supports"]
        for blocks in (joint.before, joint.after)
    ]
    for own, other in (stages, stages[::-1]):
        if not any(item.by == duty.role for item in own):
            continue
        for item in other:
            if item.by is not None and item.by != duty.role and item.sound:
                case.add(
                    RULE.found(
                        f"a check of supports of {joint.name} is signed by {item.by}, and by its duties {duty.role} "
                        "answers for them",
                        item.place("by"),
                        address=f"{joint.address}/checks",
                        others=[Label(duty.place("duty"), "the responsibility")],
                        basis=RULE.basis,
                    )
                )
