"""Preheat is measured where the standard measures it."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against, cited, places
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.preheat import Preheat

#: What a distance that is given exactly may be off.
_CLOSE = Quantity.of(5, "mm", LENGTH)
#: Where no book says how far: 3 in of the trade, and of a thick wall twice that wall; practice.
_FAR, _WALLS = Quantity.of(80, "mm", LENGTH), 2
#: ISO 13916:2017 4.1 measures at four walls, 50 mm at most; half of that is near; practice.
_FURTHEST = Quantity.of(50, "mm", LENGTH)
_BOOK = ("edition 2018, local-heating", "edition 2018, iso-13916 edition 2017, local-heating")

RULE = Rule(
    "P109",
    "preheat-measured-elsewhere",
    "error",
    summary="Preheat measured nearer to the groove or further from it than the books and "
    "procedures ask for.",
    why="Close by, arc and torch warm the metal; further off the reading says nothing about the "
    "weld.",
    fix="Measure at the distance asked for.",
    source="the governing books and procedures (ISO 13916:2017 4.1); 5 mm to "
    "either side of a distance given exactly, and 80 mm or twice the wall at most, half of 50 mm at least where none says: "
    "common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                (
                    "edition 2018, local-heating",
                    "edition 2018, iso-13916 edition 2017, local-heating",
                ),
                ("contact probe at 76 mm", "contact probe at {}"),
            ),
            keeps="55 mm",
            breaks="56 mm",
            says="is 56 mm (2.2 in) … 50 mm (1.969 in)",
        ),
        Edge(
            (
                (
                    "edition 2018, local-heating",
                    "edition 2018, iso-13916 edition 2017, local-heating",
                ),
                ("at 76 mm", "at {}"),
            ),
            keeps="45 mm",
            breaks="44 mm",
            says="is 44 mm (1.73 in) … 50 mm (1.969 in)",
        ),
        Edge(
            (("contact probe at 76 mm", "contact probe at {}"),),
            keeps="80 mm",
            breaks="81 mm",
            says="is 81 mm (3.19 in); 80 mm (3.15 in) at most",
        ),
        Edge(
            (("contact probe at 76 mm", "contact probe at {}"),),
            keeps="25 mm",
            breaks="24 mm",
            says="is 24 mm (0.945 in); 25 mm (0.9843 in) at least",
        ),
    ),
    good=(Good((_BOOK, ("at 76 mm", "at 50 mm"))),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not any(way.at is not None for way in preheat.measured):
        return
    governing = limits_of(case, joint).of("preheat distance")
    address = f"{joint.address}/preheat"
    if governing is None:
        _far_off(case, joint, preheat, address)
    if governing is None or governing.conflict():
        return
    for way in preheat.measured:
        if way.at is None:
            continue
        what = f"the distance of the {way.how} from the groove"
        place = way.place("at")
        found = against(RULE, governing, "minimum", way.at, place, address=address, what=what)
        if found is not None:
            case.add(found)
            continue
        for demand in governing.demands:
            asked = demand.exactly
            if isinstance(asked, Quantity) and not asked - _CLOSE <= way.at <= asked + _CLOSE:
                source = demand.limit.source
                case.add(
                    RULE.found(
                        f"{what} is {way.at.both()}, but {cited(source)} measures at "
                        f"{asked.both()}",
                        place,
                        address=address,
                        others=places(source),
                        # The tolerance has no source.
                        basis="practice",
                    )
                )
                break


def _far_off(case: Case, joint: Joint, preheat: Preheat, address: str) -> None:
    """Tells of the first instrument held too far off, or in the heat of the arc, where no book says."""
    walls = [side.wall.value for side in joint.sides if side.wall is not None]
    thickest = max((wall for wall in walls if isinstance(wall, Quantity)), default=None)
    most = _FAR
    if thickest is not None and thickest.value * _WALLS > most.value:
        most = thickest * _WALLS
    near = min(thickest * 4, _FURTHEST) / 2 if thickest is not None else None
    for way in preheat.measured:
        if way.at is None:
            continue
        usual = f"{most.both()} at most" if way.at > most else ""
        if near is not None and way.at < near:
            usual = f"{near.both()} at least"
        if usual:
            case.add(
                RULE.found(
                    f"the distance of the {way.how} from the groove is {way.at.both()}; {usual} is usual",
                    way.place("at"),
                    address=address,
                    basis="practice",
                )
            )
            return
