"""No two thermocouples share one place."""

from __future__ import annotations

import math

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.apart import along
from hts.language.model.joint import Joint, Thermocouple
from hts.language.model.seam import Flat, place_of

#: mm; two junctions cannot be attached nearer to each other. Common practice, no source.
_CLOSEST = 2
_T6 = "    T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
_BESIDE = "    T9   monitors heated edge    at 6:00,  {} upstream     channel 9\n"

RULE = Rule(
    "Z137",
    "two-at-one-place",
    "warning",
    summary="Two thermocouples at the same place of one surface.",
    why="One of them was meant to be elsewhere, and that place is not measured.",
    fix="Correct the clock position, the distance or the side of one of them; a spare sits beside "
    "the one it stands in for, not on it.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("T2S  spare for T2            at 6:10 ", "T2S  spare for T2            at 6:00 "),),
            at="T2S",
        ),
        Bad(
            (("for T2            along 1820 mm", "for T2            along 1800 mm"),),
            at="T2S",
            base="seam",
        ),
    ),
    good=(
        Good(
            (
                (
                    "T2S  spare for T2            at 6:10 ",
                    "T2S  spare for T2            at 6:03 ",
                ),
            )
        ),
    ),
    edges=(
        # A minute of the clock is 1.41 mm round this pipe.
        Edge(
            (("T2S  spare for T2            at 6:10 ", "T2S  spare for T2            at {} "),),
            keeps="6:02",
            breaks="6:01",
            at="T2S",
        ),
        Edge(((_T6, _T6 + _BESIDE),), keeps="289 mm", breaks="288 mm", at="T9"),
        Edge(
            (("for T2            along 1820 mm", "for T2            along {}"),),
            keeps="1802 mm",
            breaks="1801 mm",
            at="T2S",
            base="seam",
        ),
    ),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.at",
            "joint.thermocouples.thermocouple.offset",
            "no two thermocouples share both",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    diameter = joint.outside_diameter
    # A degree round the pipe in mm; without a diameter only the very same position counts.
    degree = math.pi * float(diameter.value) / 360 if diameter is not None else math.inf
    placed: dict[tuple[str, str], list[tuple[float, float, Thermocouple]]] = {}
    flat: dict[str, list[tuple[Flat, Thermocouple]]] = {}
    for tc in joint.thermocouples:
        surface = "inside" if tc.entry.monitors == "inside" else tc.surface
        here = place_of(tc)
        if here is not None:
            for there, other in flat.setdefault(surface, []):
                if math.hypot(here.x - there.x, here.y - there.y) < _CLOSEST:
                    _tell(case, tc, other)
            flat[surface].append((here, tc))
            continue
        where, position = along(tc), tc.position
        if where is None or position is None:
            continue
        axis, axial = where
        mine = placed.setdefault((surface, axis), [])
        mm, degrees = float(axial), float(position.degrees)
        for other_mm, other_degrees, other in mine:
            if abs(mm - other_mm) >= _CLOSEST:
                continue
            round_ = abs(degrees - other_degrees)
            if (min(round_, 360 - round_) * degree if round_ else 0) < _CLOSEST:
                _tell(case, tc, other)
        mine.append((mm, degrees, tc))


def _tell(case: Case, tc: Thermocouple, other: Thermocouple) -> None:
    case.add(
        RULE.found(
            f"{tc.tag} sits where {other.tag} sits",
            tc.place("name"),
            address=tc.address,
            others=[Label(other.place("name"), "at the same place")],
            basis=RULE.basis,
        )
    )
