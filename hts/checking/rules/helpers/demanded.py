"""Findings about what procedures demand of the entries of a job, told alike by every rule."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.govern.demanded import Outcome, of_joint
from hts.checking.rules.helpers.waived import of_job
from hts.checking.rules.rule import Rule
from hts.language.model.joint import Joint


def tell(rule: Rule, case: Case, verb: str, verdict: str) -> None:
    """Reports each demand of one kind ("": of all) that comes to one verdict."""
    nothing = case.nothing_at(rule.kind.code)
    outcomes = list(of_job(case))
    for joint in case.joints():
        if joint.name in nothing:
            continue
        found = of_joint(case, joint)
        if not any(_told(outcome, verb, verdict) for outcome in found):
            nothing.add(joint.name)
        outcomes += found
    for outcome in outcomes:
        if _told(outcome, verb, verdict):
            _add(rule, case, outcome)


def _told(outcome: Outcome, verb: str, verdict: str) -> bool:
    if verdict != outcome.verdict or verb not in ("", outcome.verb):
        return False
    return verdict != "undecided" or _known(outcome.joint)


def _known(joint: Joint | None) -> bool:
    """Whether the materials of a joint are there; where one is not, that is told, and the facts
    that are missing for it are a consequence."""
    return joint is None or all(side.material is not None for side in joint.sides)


def _add(rule: Rule, case: Case, outcome: Outcome) -> None:
    job = case.spec.file.job
    whose = outcome.joint.name if outcome.joint is not None else job.number if job else ""
    lines = {"requires": "demanded", "prefers": "preferred", "forbids": "forbidden"}
    case.add(
        rule.found(
            f"{outcome.authority.name} {outcome.verb} `{outcome.what.text}` of {whose or 'the job'}: "
            f"{outcome.why}",
            outcome.at,
            address=outcome.address,
            others=[Label(outcome.line.place(), f"{lines[outcome.verb]} here")],
            notes=[*([outcome.line.note] if outcome.line.note else []), *_asked_of(outcome)],
        )
    )


def _asked_of(outcome: Outcome) -> list[str]:
    """Where a line asks the same of a bake and a cycle, which its writer may not have meant."""
    roots = list(dict.fromkeys(" ".join(each.root.words) for each in outcome.what.targets))
    if len(roots) < 2 or outcome.verb == "forbids":
        return []
    named = f"{', '.join(roots[:-1])} and {roots[-1]}"
    return [
        f"the line asks it of {named} alike; begun with one of these words it is for that alone"
    ]
