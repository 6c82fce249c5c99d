"""A check that reads thermocouples by their tags reads those there are."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint, Thermocouple

_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "{}" about other\n'
    "  insulation resistance at least 1 Mohm\n}}\n\ncontroller C1 {{"
)


def _checked(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text)),)


RULE = Rule(
    "K123",
    "thermocouple-not-there",
    "warning",
    summary="A check or a caution that names a thermocouple no joint of it has, or reads how cold the weld is on "
    "one that sits elsewhere.",
    why="At the pipe another one is read in its place, or none.",
    fix="Name a thermocouple of the joint.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _checked("Weld cold, read on T1, T2 and T17"),
            at="T17",
            says="names T17, and W12 has no such thermocouple",
        ),
        Bad(
            _checked("Preheat measured by T19"),
            at="T19",
            says="names T19, and W12 has no such thermocouple",
        ),
        Bad(
            _checked("Weld cold, read on T5 and T6"),
            at='"Weld cold, read on T5 and T6"',
            says="reads the weld on T5, which monitors heated edge",
        ),
    ),
    good=(
        Good(_checked("Weld cold, read on T1, T2 and T6")),
        # No tag stands beside it: it may be anything.
        Good(_checked("Winch T17 stands by")),
    ),
    agrees=(Agreement("before heat.check.text", "joint.thermocouples.thermocouple.name", "there"),),
)

_READ_ON = re.compile(
    r"\b(?:read|measured|shown|watched|monitored|recorded) (?:on|by|with|at) (?:thermocouples? )?[A-Z]{1,3}\d"
)
#: Where a reading tells nothing of the weld.
_OFF_THE_WELD = ("heated edge", "gradient edge", "nearby item", "ambient")
#: The weld, and the thermocouples it is read on.
_READ = re.compile(
    r"^(?:the )?(?:welds?|joints?)\b[^;.]*?\b(?:read|by|at|on)\b(?: (?:on|at|by))?"
    r"((?:,? (?:and )?[A-Z]{1,3}\d{1,3}[A-Z]?)+)",
    re.IGNORECASE,
)
_TAG = re.compile(r"\b[A-Z]{1,3}\d{1,3}[A-Z]?\b")


@RULE.for_spec
def check(case: Case) -> None:
    # A list may be for several joints: what one of them has is meant.
    everywhere = {tc.tag for each in case.spec.joints.values() for tc in each.thermocouples}
    for joint in case.joints():
        _look(case, joint, everywhere)


def _look(case: Case, joint: Joint, everywhere: set[str]) -> None:
    tags = {tc.tag for tc in joint.thermocouples}
    letters = {re.sub(r"\d.*", "", tag) for tag in tags}
    if not tags:
        return
    for text, at in _texts(joint):
        named = _TAG.findall(text)
        # A tag alone may be anything, but for one that a temperature is read on.
        if not tags & set(named) and not _READ_ON.search(text):
            continue
        odd = [
            tag for tag in named if tag not in everywhere and re.sub(r"\d.*", "", tag) in letters
        ]
        aside = _aside(joint, text)
        if aside is not None and not odd:
            case.add(
                RULE.found(
                    f"a check or caution reads the weld on {aside.tag}, which monitors "
                    f"{aside.entry.monitors}",
                    at,
                    address=f"{joint.address}/checks",
                    others=[Label(aside.place("name"), "it sits here")],
                    basis=RULE.basis,
                )
            )
        if odd:
            case.add(
                RULE.found(
                    f"a check or caution names {odd[0]}, and {joint.name} has no such thermocouple",
                    at,
                    address=f"{joint.address}/checks",
                    others=[Label(joint.thermocouples[0].place("name"), "its thermocouples")],
                    basis=RULE.basis,
                )
            )


def _aside(joint: Joint, text: str) -> Thermocouple | None:
    """A thermocouple off the weld where a clause reads the weld on more of these than others."""
    known = {tc.tag: tc for tc in joint.thermocouples}
    for found in _READ.finditer(text):
        read = [known[tag] for tag in _TAG.findall(found[0]) if tag in known]
        off = [tc for tc in read if tc.entry.monitors in _OFF_THE_WELD]
        if len(off) > len(read) - len(off):
            return off[0]
    return None


def _texts(joint: Joint) -> Iterator[tuple[str, Span]]:
    for block in (*joint.before, *joint.during, *joint.after):
        for item in block.checks if block.sound else ():
            yield item.text, item.place("text")
        for text in block.cautions if block.sound else ():
            yield text, block.place("cautions")
