"""Heats of a part that goes into the furnace piece by piece overlap."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

_FURNACE = ("heating by resistance", "heating by furnace")
_LIMIT = (
    "  interpass        at most 350",
    "  furnace overlap at least 300 mm\n  interpass        at most 350",
)


def _overlap(length: str) -> tuple[str, str]:
    return (
        "    ends           closed",
        f'    furnace "Furnace 1" overlap {length}\n    ends           closed',
    )


RULE = Rule(
    "L224",
    "short-furnace-overlap",
    "error",
    summary="An overlap of furnace heats shorter than the books and procedures ask for.",
    why="Between two heats a strip is left that never got as hot as it must.",
    fix="Overlap the heats by more.",
    source="the governing books and procedures (ASME B31.3-2012 331.2.5: 300 mm)",
    basis="published",
    edges=(
        Edge(
            (_FURNACE, _LIMIT, _overlap("{}")),
            keeps="300 mm",
            breaks="299 mm",
            base="procedure",
            says="is 299 mm (11.77 in) … at least 300 mm (11.82 in)",
        ),
    ),
    good=(Good((_FURNACE, _LIMIT, _overlap("1 ft")), base="procedure"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    furnace = heating.furnace if heating is not None else None
    if furnace is None or furnace.overlap is None:
        return
    found = against(
        RULE,
        limits_of(case, joint).of("furnace overlap"),
        "minimum",
        furnace.overlap,
        furnace.place("overlap"),
        address=f"{joint.address}/heating",
        what="the overlap of heats",
    )
    if found is not None:
        case.add(found)
