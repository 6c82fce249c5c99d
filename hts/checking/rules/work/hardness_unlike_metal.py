"""Hardness limits leave room between them, and are ones the metal joined can have."""

from __future__ import annotations

from fractions import Fraction

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.shared_with_procedures import HARDEST, SERVICE
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import Hardness

#: Usual greatest and least limits by P-number, HV; from memory of owners' and code limits.
_MOST = {"1": (180, 280), "3": (190, 280), "4": (190, 280), "5A": (200, 280), "5B": (200, 280),
         "15E": (240, 310)}  # fmt: skip
_LEAST = {"15E": (150, 235)}
_SOFT = (90, 200)
#: Brinell for one Vickers, near enough below 400 HV (ISO 18265, from memory).
_BRINELL = Fraction(95, 100)


def _after(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", f"after heat W12 {{\n  hardness {text}\n}}\n\ncontroller C1 {{"),)


RULE = Rule(
    "K103",
    "hardness-unlike-metal",
    "warning",
    summary="A hardness limit far from what is usual for the metal, or a least hardness that is not "
    "below the greatest.",
    why="A limit nobody can break shows nothing; one nobody can meet is set aside on site.",
    fix="Check digits and scale against the code or the owner's procedure.",
    source="usual limits by P-number (from memory); ISO 18265 for the scales (from memory)",
    basis="memory",
    about=("after heat.hardness.at most",),
    bad=(
        Bad(
            _after("weld at most 241 HBW at least 190 HV10 count 3"),
            at="190 HV10",
            says="190 HV10 … 241 HBW",
        ),
    ),
    edges=(
        Edge(
            _after("weld at most {} count 3"),
            keeps="266 HBW",
            breaks="267 HBW",
            says="267 HBW … about 200 to 280 HV",
        ),
        Edge(
            (
                *_after("weld at most {} count 3"),
                (
                    "  made in    field\n",
                    "  made in    field\n  service    wet hydrogen sulphide\n",
                ),
            ),
            keeps="250 HV10",
            breaks="251 HV10",
            says="251 HV10 … usual for wet hydrogen sulphide is at most 250 HV10",
        ),
        Edge(
            (
                (
                    "controller C1 {",
                    "after heat W12 {\n  hardness weld at most 241 HBW at least {} count 3\n}\n\ncontroller C1 {",
                ),
            ),
            keeps="190 HBW",
            breaks="191 HBW",
            says="191 HBW … about 90 to 200 HV",
        ),
    ),
    good=(Good(_after("weld at most 241 HBW at least 150 HBW count 3")),),
    agrees=(
        Agreement("after heat.hardness.at most", "material.p-number", "usual for the metal"),
        Agreement("after heat.hardness.at most", "joint.service", "as soft as sour service asks"),
        Agreement("after heat.hardness.at least", "after heat.hardness.at most", "below it"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    figures = [side.figure("p_number") for side in joint.sides]
    numbers = [str(figure.value) for figure in figures if figure is not None]
    known = [number for number in numbers if number in _MOST]
    for block in joint.after:
        for item in block.hardness if block.sound else ():
            _judge(case, joint, item, known if len(known) == len(joint.sides) else [])


def _judge(case: Case, joint: Joint, item: Hardness, numbers: list[str]) -> None:
    most, least = item.at_most, item.at_least
    hardest = HARDEST.get(most.unit.symbol) if most is not None else None
    if (
        SERVICE in joint.entry.service
        and hardest is not None
        and most is not None
        and most > hardest
    ):
        usual = f"usual for {SERVICE} is at most {hardest}"
        _tell(case, joint, item, "at_most", f"{most} as greatest hardness; {usual}")
        return
    if most is not None and least is not None:
        if most.unit.scale != least.unit.scale:
            _tell(case, joint, item, "at_least", f"{least} is on another scale than {most}")
            return
        if least >= most:
            _tell(case, joint, item, "at_least", f"at least {least} leaves no room to {most}")
            return
    for field, value, low, high in (
        ("at_most", most, *_window(_MOST, numbers)),
        ("at_least", least, *_window(_LEAST, numbers, _SOFT)),
    ):
        if value is None or not numbers or not value.unit.scale.startswith(("HV", "HB")):
            continue
        vickers = value.value / (_BRINELL if value.unit.scale == "HBW" else 1)
        if not low <= vickers <= high:
            words = "greatest" if field == "at_most" else "least"
            what = f"{value} as {words} hardness of P-number {' and '.join(sorted(set(numbers)))}"
            _tell(case, joint, item, field, f"{what}; usual is about {low} to {high} HV")


def _window(
    table: dict[str, tuple[int, int]], numbers: list[str], other: tuple[int, int] = (0, 999)
) -> tuple[int, int]:
    found = [table.get(number, other) for number in numbers] or [other]
    return min(low for low, _ in found), max(high for _, high in found)


def _tell(case: Case, joint: Joint, item: Hardness, field: str, message: str) -> None:
    case.add(
        RULE.found(
            f"{item.zone}: {message}",
            item.place(field),
            address=f"{joint.address}/after-heat",
            basis=RULE.basis,
        )
    )
