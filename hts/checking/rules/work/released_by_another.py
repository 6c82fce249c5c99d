"""What is released at a hold point is released by who answers for it, and not by who does the work."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.vocabulary.work import WitnessPoint

_SHOW = "  show         SI and US\n"
_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  insulation resistance at least 1 Mohm\n  hold point "Start is released" by "{}"\n}}\n\n'
    "controller C1 {{"
)
_DUTY = '  responsibility "Heat-treatment technician" "Attaches thermocouples and heaters"\n'
_RELEASES = '  responsibility "Welding inspector" "Releases the start and judges the chart"\n'


def _released(by: str, duties: str) -> tuple[tuple[str, str], ...]:
    return ((_SHOW, _SHOW + duties), ("controller C1 {", _CHECKS.format(by)))


def _witnessed(by: str) -> tuple[tuple[str, str], ...]:
    point = f'  reading every 1 h\n  witness point "Reading of the hold" by "{by}"\n'
    duty = _DUTY.replace("and heaters", "and heaters, reads hourly")
    return (
        (_SHOW, _SHOW + duty),
        ("controller C1 {", f"during heat W12 {{\n{point}}}\n\ncontroller C1 {{"),
    )


RULE = Rule(
    "K130",
    "released-by-another",
    "warning",
    summary="A hold point that releases the work by the role that does it, or by another role than the "
    "responsibilities say releases it; a witness point at readings by the role that reads.",
    why="A hold point is there so that somebody else looks; whoever released himself has seen nothing new.",
    fix="Name the role that releases.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _released("Heat-treatment technician", _DUTY),
            at="hold point",
            says="W12 is released by Heat-treatment technician, who does the work",
        ),
        Bad(
            _released(
                "Welding inspector",
                _RELEASES.replace("Releases the start", "The technician releases the start"),
            ),
            at="hold point",
            says="released by Welding inspector, by whose duties the technician releases the start",
        ),
        Bad(
            _released("Welding engineer", _RELEASES),
            at="hold point",
            says="released by Welding engineer … Welding inspector releases the start",
        ),
        Bad(
            _witnessed("Heat-treatment technician"),
            at="witness point",
            says="the readings of W12 are witnessed by Heat-treatment technician, who reads",
        ),
    ),
    good=(
        Good(_witnessed("Inspector")),
        Good(_released("Welding inspector", _DUTY + _RELEASES)),
        Good(_released("Owner's engineer", _DUTY)),
    ),
    agrees=(
        Agreement(
            "before heat.hold point.by", "job.responsibility.duty", "released by who releases"
        ),
    ),
)

_DOES = re.compile(r"\b(?:attach(?:es)?|fits?|lays?|sets? the power|heats|welds)\b", re.IGNORECASE)
_START = re.compile(r"\bstart\b.*\breleased?\b|\breleases? (?:of )?the start\b", re.IGNORECASE)
_ANOTHER = re.compile(r"\bthe (\w+) releases (?:the )?start\b", re.IGNORECASE)
_READING = re.compile(r"\breadings?\b", re.IGNORECASE)
_READER = re.compile(r"\breads\b", re.IGNORECASE)
_RELEASED = re.compile(r"\breleas", re.IGNORECASE)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    duties = [each for each in job.responsibilities if each.sound] if job is not None else []
    told: set[int] = set()
    for joint in case.joints() if duties else ():
        for block in (*joint.before, *joint.during, *joint.after):
            for called in block.witness_points if block.sound else ():
                reader = next(
                    (each for each in duties if _reads(each.role, each.duty, called)), None
                )
                at = called.place()
                if reader is None or at.start in told:
                    continue
                told.add(at.start)
                case.add(
                    RULE.found(
                        f"the readings of {joint.name} are witnessed by {called.by}, who reads",
                        at,
                        address=f"{joint.address}/checks",
                        others=[Label(reader.place("duty"), "the responsibility")],
                        basis=RULE.basis,
                    )
                )
            for point in block.hold_points if block.sound else ():
                at = point.place()
                if at.start in told or not point.by or not _RELEASED.search(point.text):
                    continue
                found = _wrong(
                    point.text,
                    point.by,
                    [(each.role, each.duty, each.place("duty")) for each in duties],
                )
                if found is None:
                    continue
                told.add(at.start)
                message, other = found
                case.add(
                    RULE.found(
                        f"{joint.name} is released by {point.by}, {message}",
                        at,
                        address=f"{joint.address}/checks",
                        others=[Label(other, "the responsibility")],
                        basis=RULE.basis,
                    )
                )


def _reads(role: str, duty: str, point: WitnessPoint) -> bool:
    """Whether a point at the readings calls the role that takes them."""
    return point.by == role and bool(_READING.search(point.text)) and bool(_READER.search(duty))


def _wrong(text: str, by: str, duties: list[tuple[str, str, Span]]) -> tuple[str, Span] | None:
    """What is wrong with who releases, and where it is said otherwise."""
    own = [each for each in duties if each[0] == by]
    for _, duty, at in own:
        other = _ANOTHER.search(duty)
        if other is not None and other[1].lower() not in by.lower() and _START.search(text):
            return f"by whose duties the {other[1]} releases the start", at
    if any(_RELEASED.search(duty) for _, duty, _ in own):
        return None
    for _, duty, at in own:
        if _DOES.search(duty):
            return "who does the work", at
    for role, duty, at in duties:
        if role != by and _START.search(text) and _START.search(duty):
            return f"and by its duties {role} releases the start", at
    return None
