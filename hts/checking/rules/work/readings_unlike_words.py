"""Readings by hand are taken as often as the sentences of the job say."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import NUMBERS, denied
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

_READS = re.compile(r"\bread(?:s|ings?)?\b|\blog(?:s|ged)?\b", re.IGNORECASE)
_HOURLY = re.compile(r"\b(half[- ])?hourly\b|\bevery (half an )?hour\b", re.IGNORECASE)
_DAILY = re.compile(r"\b(daily|(?:once|twice) (?:a|each|per) (?:day|shift))\b", re.IGNORECASE)
_EVERY = re.compile(
    rf"\bevery (\d+|{'|'.join(NUMBERS[1:])}) ?(h|hours?|min|minutes?)\b|\b(\d+)-(hourly|minute)\b",
    re.IGNORECASE,
)
_BY_HAND = re.compile(r"\breadings?\b", re.IGNORECASE)
#: Minutes; words may ask for so many times as seldom before they contradict.
_SELDOM = 2
_ROLE = '  show         SI and US\n  responsibility "Technician" "{}"\n'
_DURING = "during heat W12 {{\n{}}}\n\ncontroller C1 {{"


def _job(words: str, during: str) -> tuple[tuple[str, str], ...]:
    return (
        ("  show         SI and US\n", _ROLE.format(words)),
        ("controller C1 {", _DURING.format(during)),
    )


RULE = Rule(
    "K127",
    "readings-unlike-words",
    "warning",
    summary="Readings by hand that are taken less often than a sentence of the job says, or of which "
    "only a sentence speaks.",
    why="The technician reads by one of the two; between two readings a zone that runs away is seen by "
    "nobody.",
    fix="Let `reading every` and the sentence say the same.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "controller C1 {",
                    _DURING.format('  witness point "Reading of the hold" by "Inspector"\n'),
                ),
            ),
            at='"Reading of the hold"',
            says="nothing says how often W12 is read",
        ),
        Bad(
            (
                (
                    _ROLE[: _ROLE.index("  resp")],
                    f'{_ROLE[: _ROLE.index("  resp")]}  attachment "Form 3: hourly readings"\n',
                ),
                ("controller C1 {", _DURING.format("  reading every 2 h\n")),
            ),
            at='"Form 3: hourly readings"',
            says="every 60 min, and during heat of W12 every 2 h",
        ),
        Bad(
            _job("Reads daily", "  reading every 1 h\n"),
            at='"Reads daily"',
            says="every 24 h, and during heat of W12 every 1 h",
        ),
        Bad(
            _job("Reads every four hours", "  reading every 1 h\n"),
            at='"Reads every four hours"',
            says="every 4 h, and during heat of W12 every 1 h",
        ),
        Bad(
            _job("Reads hourly", '  check "Shelter stands"\n'),
            at='"Reads hourly"',
            says="every 60 min, and nothing during heat of W12",
        ),
    ),
    edges=(
        Edge(
            _job("Reads every {} hours", "  reading every 1 h\n"),
            keeps="2",
            breaks="3",
            at='"Reads every 3 hours"',
            says="every 3 h, and during heat of W12 every 1 h",
        ),
        Edge(
            _job("Reads every {}", "  reading every 1 h\n"),
            keeps="120 min",
            breaks="121 min",
            at='"Reads every 121 min"',
            says="every 121 min, and during heat of W12 every 1 h",
        ),
        Edge(
            _job("Attaches heaters, reads hourly", "  reading every {}\n"),
            keeps="60 min",
            breaks="61 min",
            at='"Attaches heaters, reads hourly"',
            says="every 60 min, and during heat of W12 every 61 min",
        ),
    ),
    good=(
        Good(_job("Reads hourly", "  reading every 30 min\n")),
        Good(
            (
                (
                    _ROLE[: _ROLE.index("  resp")],
                    f'{_ROLE[: _ROLE.index("  resp")]}  attachment "Form 3: hourly readings"\n',
                ),
                ("controller C1 {", _DURING.format("  reading every 1 h\n")),
            )
        ),
        Good(_job("Looks at the fire watch every 2 h", "  reading every 15 min\n")),
        Good((("controller C1 {", _DURING.format('  check "Shelter stands"\n')),)),
    ),
    agrees=(
        Agreement("job.responsibility.duty", "during heat.reading every", "as often"),
        Agreement("job.attachment", "during heat.reading every", "as often as its form"),
        Agreement("during heat.witness point.text", "during heat.reading every", "stated"),
    ),
)


class _Said(NamedTuple):
    """How often a sentence has readings taken, min, as it says so, and where."""

    minutes: Fraction
    words: str
    at: Span


@RULE.for_spec
def check(case: Case) -> None:
    joints = [joint for joint in case.joints() if any(each.sound for each in joint.during)]
    told: set[Span] = set()
    for said in _said(case):
        for joint in joints:
            wrong = _wrong(joint, said)
            if wrong and said.at not in told:
                told.add(said.at)
                job = case.spec.file.job
                assert job is not None
                message = f"readings are taken every {said.words}, and {wrong}"
                case.add(RULE.found(message, said.at, address=job.name, basis=RULE.basis))
    for joint in joints:
        _only_a_point(case, joint, told)


def _said(case: Case) -> Iterator[_Said]:
    for text, at in _sentences(case):
        if not _READS.search(text) or denied(text):
            continue
        hourly, every = _HOURLY.search(text), _EVERY.search(text)
        if hourly is not None:
            minutes = 30 if hourly[1] or hourly[2] else 60
            yield _Said(Fraction(minutes), f"{minutes} min", at)
        elif (daily := _DAILY.search(text)) is not None:
            hours = 24 if daily[1].lower() == "daily" or "day" in daily[1].lower() else 8
            hours //= 2 if daily[1].lower().startswith("twice") else 1
            yield _Said(Fraction(60 * hours), f"{hours} h", at)
        elif every is not None:
            number, unit = (every[1], every[2]) if every[1] else (every[3], every[4])
            in_hours = unit.lower().startswith("h")
            count = int(number) if number.isdigit() else NUMBERS.index(number.lower()) + 1
            minutes = count * (60 if in_hours else 1)
            yield _Said(Fraction(minutes), f"{count} {'h' if in_hours else 'min'}", at)


def _sentences(case: Case) -> Iterator[tuple[str, Span]]:
    job = case.spec.file.job
    if job is None or not job.sound:
        return
    for duty in job.responsibilities:
        yield duty.duty, duty.place("duty")
    for text in job.attachments:
        yield text, job.place("attachments")


def _wrong(joint: Joint, said: _Said) -> str:
    """What the lists of a joint have unlike a sentence; "" for nothing."""
    stated = [each.reading_every for each in joint.during if each.reading_every is not None]
    if not stated:
        return f"nothing during heat of {joint.name} says so"
    most = max(stated, key=lambda each: each.value)
    minutes = Fraction(most.to("min"))
    if said.minutes < minutes or said.minutes > _SELDOM * minutes:
        return f"during heat of {joint.name} every {most}"
    return ""


def _only_a_point(case: Case, joint: Joint, told: set[Span]) -> None:
    """Tells of a point of the plan at readings that nothing else speaks of."""
    if any(each.reading_every is not None for each in joint.during):
        return
    for block in joint.during:
        for point in (*block.witness_points, *block.hold_points, *block.review_points):
            at = point.place("text")
            if block.sound and _BY_HAND.search(point.text) and at not in told:
                told.add(at)
                case.add(
                    RULE.found(
                        f"somebody is called to the readings, and nothing says how often {joint.name} is read",
                        at,
                        address=f"{joint.address}/checks",
                        others=[Label(block.place(), "during heat")],
                        basis=RULE.basis,
                    )
                )
                return
