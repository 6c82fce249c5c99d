"""Whoever is to release the start is asked to: there is a hold point before the heat."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule

_SHOW = "  show         SI and US\n"
_DUTY = '  responsibility "Welding inspector" "{}"\n'
_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    "  insulation resistance at least 1 Mohm\n{}}}\n\ncontroller C1 {{"
)
_POINT = '  hold point "Start is released" by "Welding inspector"\n'


def _duty(words: str, point: str = "") -> tuple[tuple[str, str], ...]:
    return ((_SHOW, _SHOW + _DUTY.format(words)), ("controller C1 {", _CHECKS.format(point)))


RULE = Rule(
    "K133",
    "released-by-nobody",
    "warning",
    summary="A role that releases the start by its responsibility, and a list of checks before heat without a hold point.",
    why="Nothing stops for the release: the heat begins when the crew is ready, and whoever is to look comes too late.",
    fix="Add the hold point and who releases it, or correct the responsibility.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _duty("Releases the start and judges the chart"),
            at="before heat",
            says="Welding inspector releases the start, and nothing before heat of W12 stops for it",
        ),
    ),
    good=(
        Good(_duty("Releases the start and judges the chart", _POINT)),
        Good(_duty("Judges the chart, does not release the start")),
        Good(_duty("Releases the line after the heat")),
    ),
    agrees=(
        Agreement("job.responsibility.duty", "before heat.hold point", "what is released waits"),
    ),
)

_RELEASES = re.compile(
    r"\breleas\w* (?:of )?(?:the |each |every )?(?:start|heat|heating|work)\b", re.IGNORECASE
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    duties = [
        each
        for each in (job.responsibilities if job is not None else ())
        if each.sound
        and isinstance(each.duty, str)
        and _RELEASES.search(each.duty)
        and not denied(each.duty)
    ]
    if not duties:
        return
    told: set[int] = set()
    for joint in case.joints():
        before = [block for block in joint.before if block.checks]
        if not before or not treated(joint) or any(not block.sound for block in joint.before):
            continue
        if any(block.hold_points for block in joint.before) or before[0].place().start in told:
            continue
        told.add(before[0].place().start)
        case.add(
            RULE.found(
                f"by its duties {duties[0].role} releases the start, and nothing before heat of {joint.name} stops for it",
                before[0].place(),
                address=f"{joint.address}/before-heat",
                others=[Label(duties[0].place("duty"), "the responsibility")],
                basis=RULE.basis,
            )
        )
