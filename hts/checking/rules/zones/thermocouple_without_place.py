"""A thermocouple says where it goes."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import MONITORS, Joint
from hts.language.model.seam import weld_along

#: What these watch is where it is.
_NOT_ON_THE_WELD = ("nearby item", "ambient", "test plate")

RULE = Rule(
    "Z121",
    "thermocouple-without-place",
    "error",
    floor="error",
    summary="A thermocouple without its clock position or its distance from the weld.",
    why="It would be attached wherever there is room, and its reading would mean nothing.",
    fix="Write a clock position (`at 6:00`) and `on weld` or the distance with its side.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("monitors soak edge      at 6:00,  40 mm upstream ", "monitors soak edge  at 6:00"),),
            at="T4",
        ),
        Bad(
            (
                (
                    "monitors soak edge      at 6:00,  40 mm upstream ",
                    "monitors soak edge  40 mm upstream",
                ),
            ),
            at="T4",
        ),
        Bad(
            (("edge      along 1800 mm, 40 mm side B", "edge      40 mm side B"),),
            at="T4",
            base="seam",
            says="along the weld",
        ),
    ),
    good=(
        Good(
            (
                (
                    "monitors soak edge      at 6:00,  40 mm upstream ",
                    "monitors soak edge  arc 508.7 mm, 40 mm upstream",
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    is_along = weld_along(joint) is not None
    if not goes_round(joint) and not is_along:
        return
    for tc in joint.thermocouples:
        entry = tc.entry
        if not tc.duty or (tc.duty == MONITORS and entry.monitors in _NOT_ON_THE_WELD):
            continue
        lacking = []
        if is_along and entry.along is None:
            lacking.append("its distance along the weld")
        if not is_along and entry.at is None and entry.arc is None and entry.along is None:
            lacking.append("its clock position")
        if entry.offset is None and not entry.on_weld:
            lacking.append("its distance from the weld")
        if lacking:
            case.add(
                RULE.found(
                    f"{tc.tag} does not say {' or '.join(lacking)}",
                    tc.place("name"),
                    address=tc.address,
                )
            )
