"""One cause is one finding: what follows from another finding is left out."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Finding
from hts.checking.govern.case import Case
from hts.checking.govern.demanded import Outcome, of_joint
from hts.checking.rules.catalogue import rules
from hts.checking.rules.procedures import demand_not_met
from hts.checking.rules.quantities.implausible_value import RULE
from hts.checking.rules.rule import Rule
from hts.language.model.joint import Joint


def implausible_once(findings: list[Finding]) -> list[Finding]:
    """The findings without those that call a value implausible another finding points at."""
    if not any(finding.kind is RULE.kind for finding in findings):
        return findings
    told = [
        label.span
        for finding in findings
        if finding.kind is not RULE.kind
        for label in (finding.at, *finding.others)
    ]
    return [
        finding
        for finding in findings
        if finding.kind is not RULE.kind
        or not any(
            span.source is finding.source
            and span.start < finding.at.span.end
            and finding.at.span.start < span.end
            for span in told
        )
    ]


def demanded_once(case: Case, findings: list[Finding]) -> list[Finding]:
    """The findings without those that ask for what a procedure demands, where it is told that the
    demand is not met: whoever meets the demand has done both."""
    told = {f.address for f in findings if f.kind is demand_not_met.RULE.kind}
    if not told:
        return findings
    unmet = [
        outcome
        for joint in case.joints()
        for outcome in of_joint(case, joint)
        if outcome.verdict == "not met" and outcome.verb == "requires" and outcome.address in told
    ]
    asking = {rule.kind.code: rule for rule in rules() if rule.about}
    return [
        finding
        for finding in findings
        if finding.kind.code not in asking
        or not any(_asks(asking[finding.kind.code], finding, outcome) for outcome in unmet)
    ]


def _asks(rule: Rule, finding: Finding, outcome: Outcome) -> bool:
    """Whether a finding asks for what a demand does, of the same joint or at the same place."""
    if not any(f"{path}.".startswith(f"{of}.") for path in outcome.what.paths for of in rule.about):
        return False
    if finding.at.span == outcome.at:
        return True
    joint = outcome.joint
    ours = [] if joint is None else [joint.address, *_equipment(joint)]
    return any(f"{finding.address}/".startswith(f"{name}/") for name in ours)


def _equipment(joint: Joint) -> Iterator[str]:
    """The names of the instruments and supplies that treat it."""
    for each in (*joint.cycles, *joint.bakes):
        for equipment in (each.recorder, each.controller, each.power_source):
            if equipment is not None:
                yield equipment.name
