"""A sentence names thermocouples that there are."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.vocabulary.work import Check, Point

_AFTER = "controller C1 {"


def _checked(text: str) -> tuple[tuple[str, str], ...]:
    return ((_AFTER, f'during heat W12 {{\n  check "{text}"\n}}\n\n{_AFTER}'),)


RULE = Rule(
    "K122",
    "thermocouple-not-there",
    "warning",
    summary="A check, a point or a caution that names a thermocouple no joint has.",
    why="Whoever looks for it reads another one in its place, or ticks the line unread.",
    fix="Name a thermocouple of the joint, or state the one that is missing.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(_checked("Weld above 150 degC on T1, T2 and T17"), at="Weld above", says="T17"),),
    good=(
        Good(_checked("Weld above 150 degC on T1, T2 and T3")),
        # Grades of tube begin with a T, too.
        Good(_checked("Tubes of T91 beside the weld covered")),
    ),
    agrees=(
        Agreement(
            "before heat.check.text", "joint.thermocouples.thermocouple", "tags that there are"
        ),
        Agreement(
            "during heat.check.text", "joint.thermocouples.thermocouple", "tags that there are"
        ),
        Agreement(
            "after heat.check.text", "joint.thermocouples.thermocouple", "tags that there are"
        ),
    ),
)
#: A tag in a sentence: letters and a number, and no part of a longer name.
_TAG = re.compile(r"(?<![\w./-])([A-Z]+)(\d{1,3})([A-Z]?)(?![\w/]|-\w|\.\d)")
#: Grades of tubes (ASTM A213) that look like tags.
_GRADES = frozenset(f"T{n}" for n in (2, 5, 9, 11, 21, 22, 23, 24, 36, 91, 92, 122, 911))


@RULE.for_spec
def check(case: Case) -> None:
    tags = {tc.tag for joint in case.spec.joints.values() for tc in joint.thermocouples}
    letters = {found[1] for found in map(_TAG.fullmatch, tags) if found is not None}
    # Where not all could be read, the one named may be among those that could not.
    if not letters or not all(joint.entry.sound for joint in case.spec.joints.values()):
        return
    named = {*tags, *_GRADES, *case.spec.joints, *_instruments(case)}
    for text, at, address in _sentences(case):
        for found in _TAG.finditer(text):
            if found[1] in letters and found[0] not in named:
                case.add(
                    RULE.found(
                        f"{found[0]} is named here, and no joint has such a thermocouple",
                        at,
                        address=address,
                        basis=RULE.basis,
                    )
                )


def _instruments(case: Case) -> Iterator[str]:
    for file in (case.spec.file, *(library.file for library in case.spec.libraries)):
        yield from (each.name for each in file.controllers)
        yield from (each.name for each in file.recorders)
        yield from (each.name for each in file.power_sources)


def _sentences(case: Case) -> Iterator[tuple[str, Span, str]]:
    """What the stages of work tell people, where it stands, and its address."""
    file = case.spec.file
    for block in (*file.before, *file.during, *file.after):
        items: list[Check | Point] = [*block.checks, *block.hold_points]
        items += [*block.witness_points, *block.review_points]
        for item in items if block.sound else ():
            yield item.text, item.place("text"), item.address
        for caution in block.cautions if block.sound else ():
            yield caution, block.place("cautions"), block.address
