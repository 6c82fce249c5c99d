"""What a check finds protected is what the joint says stands nearby."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

#: Things that stand in lines. One of a kind that no item is of is not there.
_THINGS = re.compile(
    r"\b(valve|gasket|flange|gauge|transmitter|thermowell|tapping|strainer|trap|pump|bellows|"
    r"coating|lining|lagging|actuator|positioner|cable|instrument)s?\b",
    re.IGNORECASE,
)
#: Words of which one excludes the others of its row.
_EXCLUDING = tuple(
    frozenset(row.split())
    for row in (
        "suction discharge return supply",
        "inlet outlet",
        "gate globe check ball butterfly plug needle diaphragm",
        "vent drain block control relief safety isolation bypass root blowdown",
        "level pressure flow temperature",
    )
)
_WORD = re.compile(r"[a-z]+", re.IGNORECASE)
_ROD = '  support    "rod hanger" 1.2 m upstream fixed\n'
_NEARBY = '  nearby     "suction gate valve, seat" 1.4 m downstream at most 200 degC protected\n'


def _checked(text: str) -> tuple[tuple[str, str], ...]:
    return (
        (_ROD, _ROD + _NEARBY),
        (
            "controller C1 {",
            'before heat W12 {\n  check "Each tag warmed by hand" about tag matches channel\n'
            '  check "Bore drained and vented" about drained and vented\n'
            f'  check "{text}" about nearby items protected\n'
            "  insulation resistance at least 1 Mohm\n}\n\ncontroller C1 {",
        ),
    )


RULE = Rule(
    "K128",
    "item-not-nearby",
    "warning",
    summary="A check of what is protected that names another item than stands near the joint.",
    why="The list was taken from another weld: what stands here is checked by nobody.",
    fix="Name the item as the joint does, or add it there.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _checked("Heat shield of the discharge gate valve in place"),
            at='"Heat shield of the discharge gate valve in place"',
            says="names the discharge gate valve, and `suction gate valve, seat` stands near W12",
        ),
        Bad(
            (
                *_checked("Heat shield of the suction gate valve in place")[1:],
                (_ROD, _ROD + _NEARBY.replace("suction gate valve,", "gate valve of the return,")),
            ),
            at='"Heat shield of the suction gate valve in place"',
            says="names the suction gate valve, and `gate valve of the return, seat` stands near W12",
        ),
        Bad(
            _checked("Heat shield of the level gauge in place"),
            at='"Heat shield of the level gauge in place"',
            says="names the level gauge, and `suction gate valve, seat` stands near W12",
        ),
    ),
    good=(
        Good(_checked("Heat shield of the suction gate valve in place")),
        Good(_checked("Heat shield of the valve in place")),
        Good(_checked("Seat of the isolation valve shielded")),
        Good(_checked("Shields in place")),
        # Of no kind: the seat is meant, or something that everybody knows.
        Good(_checked("Gauge below its limit")),
    ),
    agrees=(
        Agreement("before heat.check.text", "joint.nearby.what", "names what stands there"),
        Agreement("during heat.check.text", "joint.nearby.what", "names what stands there"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.entry.nearby or not treated(joint):
        return
    there = [set(map(str.lower, _WORD.findall(item.what))) for item in joint.entry.nearby]
    for text, at in _checks(joint):
        named = _missing(text, there)
        if named:
            others = [Label(item.place("what"), "stated") for item in joint.entry.nearby]
            items = ", ".join(f"`{item.what}`" for item in joint.entry.nearby)
            case.add(
                RULE.found(
                    f"a check names the {named}, and {items} stands near {joint.name}",
                    at,
                    address=f"{joint.address}/checks",
                    others=others,
                    basis=RULE.basis,
                )
            )
            return


def _checks(joint: Joint) -> Iterator[tuple[str, Span]]:
    for block in (*joint.before, *joint.during, *joint.after):
        # A list for several joints may name what stands near one of them.
        for item in block.checks if block.sound and block.for_one else ():
            if item.about == "nearby items protected":
                yield item.text, item.place("text")


def _missing(text: str, there: list[set[str]]) -> str:
    """What a sentence names that is none of the items, each given as its words; "" for nothing."""
    for found in _THINGS.finditer(text):
        thing = found[1].lower()
        before = [word.lower() for word in _WORD.findall(text[: found.start()])][-2:]
        alike = [words for words in there if words & {thing, f"{thing}s"}]
        if any(not _excluded(before, words) for words in alike):
            continue
        kind = [word for word in before if any(word in row for row in _EXCLUDING)]
        if kind:
            return " ".join((*kind, found[0].lower()))
    return ""


def _excluded(before: list[str], words: set[str]) -> bool:
    """Whether a word before a thing excludes that it is the item of these words."""
    return any(
        word in row and word not in words and bool(row & words)
        for row in _EXCLUDING
        for word in before
    )
