"""A typical weld is what its name says: its service, its kind, its metal, how it lies."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_NAME = ("joint W12 {", "joint {} {{")


def _named(name: str, *more: tuple[str, str]) -> tuple[tuple[str, str], ...]:
    return ((_NAME[0], _NAME[1].format(name)), *more)


RULE = Rule(
    "J232",
    "weld-of-other-name",
    "warning",
    summary="A typical weld called after a service, a kind of weld, a metal or a riser that its entries are not.",
    why="Welds are made like it by its name: all of them are treated as what it is not.",
    fix="Correct the entry or the name.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _named("amine-butt", ("  made in    field\n", "  made in    field\n  service    steam\n")),
            base="joint",
            at="steam",
            says="amine-butt is called after amine, and its service is steam",
        ),
        Bad(
            _named("p11-butt"),
            base="joint",
            at="between",
            says="p11-butt is called after P11, and its metal is A335 P22",
        ),
        Bad(
            _named("header-branch"),
            base="joint",
            at="girth butt",
            says="header-branch is called after a branch, and is a girth butt",
        ),
        Bad(
            _named("p22-riser"),
            base="joint",
            at="axis",
            says="p22-riser is called after a riser, and lies horizontal",
        ),
    ),
    good=(
        Good(_named("p22-butt"), base="joint"),
        Good(_named("steam-header"), base="joint"),
        Good(_named("branch-line-butt"), base="joint"),
    ),
    agrees=(
        Agreement("joint", "joint.service", "the service of the name"),
        Agreement("joint", "joint.kind", "the kind of the name"),
        Agreement("joint", "joint.axis.lies", "a riser does not lie"),
    ),
)  # fmt: skip

_SERVICES = {
    "amine": ("amine",),
    "caustic": ("caustic",),
    "carbonate": ("carbonate",),
    "ammonia": ("ammonia",),
    "sour": ("wet hydrogen sulphide",),
    "steam": ("steam",),
}
_KINDS = {
    "butt": ("girth butt", "repair"),
    "branch": ("branch",),
    "socket": ("socket",),
    "seam": ("long seam",),
    "repair": ("repair",),
}
_GRADE = re.compile(r"(?:p|f|wp|t)(5|9|11|12|22|91|92)")
_OF_GRADE = re.compile(r"\b(?:P|F|WP|T) ?-?(\d+)\b")


@RULE.for_spec
def check(case: Case) -> None:
    for joint in case.joints():
        words = joint.name.lower().split("-")
        if len(words) < 2 or joint not in case.spec.own:
            continue
        found = (
            _service(joint, words)
            or _kind(joint, words)
            or _metal(joint, words)
            or _lie(joint, words)
        )
        if found:
            called, is_, field = found
            case.add(
                RULE.found(
                    f"{joint.name} is called after {called}, and {is_}",
                    joint.place(field),
                    address=joint.address,
                    others=[Label(joint.place("names"), "its name")],
                    basis=RULE.basis,
                )
            )


_Told = tuple[str, str, str] | None


def _service(joint: Joint, words: list[str]) -> _Told:
    stated = joint.entry.service
    for word in words:
        if stated and word in _SERVICES and not {*_SERVICES[word]} & {*stated}:
            return word, f"its service is {' and '.join(stated)}", "service"
    return None


def _kind(joint: Joint, words: list[str]) -> _Told:
    # The last word tells the kind: a branch line has butts.
    kinds = _KINDS.get(words[-1])
    if kinds is None or joint.entry.kind is None or joint.entry.kind in kinds:
        return None
    return f"a {words[-1]}", f"is a {joint.entry.kind}", "kind"


def _metal(joint: Joint, words: list[str]) -> _Told:
    named = [found[1] for word in words if (found := _GRADE.fullmatch(word))]
    grades = [side.material.grade or "" for side in joint.sides if side.material is not None]
    numbers = [{*_OF_GRADE.findall(grade)} for grade in grades]
    if not named or not numbers or not all(numbers) or any(named[0] in each for each in numbers):
        return None
    field = "between" if joint.entry.says("between") else "sides"
    return f"P{named[0]}", f"its metal is {' and '.join(dict.fromkeys(grades))}", field


def _lie(joint: Joint, words: list[str]) -> _Told:
    axis = joint.entry.axis
    if "riser" not in words or axis is None or axis.lies != "horizontal":
        return None
    return "a riser", "lies horizontal", "axis"
