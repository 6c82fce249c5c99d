"""A test plate is of the metal and the thickness it stands for, and what watches it monitors it."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.joint import TestPlate
from hts.language.vocabulary.material import Material

_SUPPORT = '  support    "rod hanger" 1.2 m upstream fixed\n'
_PLATE = '  test plate "TP-3" of pipe thickness'
_T6 = "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
#: Of the thickest wall; plates are cut from what is at hand.
_THICKER = Fraction(3, 2)
_OTHER = ("joint W12 {", 'material other {\n  grade "A335 P11"\n}\n\njoint W12 {')


def _plate(said: str) -> tuple[tuple[str, str], ...]:
    return ((_SUPPORT, f'  test plate "TP-3" {said}\n{_SUPPORT}'),)


RULE = Rule(
    "M209",
    "test-plate-unlike-joint",
    "warning",
    summary="A test plate of another metal than the joint, thinner than its wall or far thicker, or watched by a "
    "thermocouple that monitors something else, or in the heat of the joint although it is heated by itself.",
    why="What is tested on it says nothing of the joint.",
    fix="Take the plate from the metal of the joint, at least as thick; let its thermocouple "
    "`monitors test plate`.",
    source="ASME BPVC VIII-1 UG-84(i) (from memory); that it is not far thicker, heated slower and "
    "quenched less, is common practice",
    basis="memory",
    bad=(
        Bad(
            (_OTHER, *_plate("of other thickness 25.4 mm")), at="other", says="A335 P11 … A335 P22"
        ),
        Bad(_plate("of pipe thickness 26 mm monitored by T3"), at="T3", says="T3 … soak edge"),
        Bad(
            (
                *_plate("heated by itself of pipe thickness 25.4 mm monitored by T9"),
                (_T6, f"{_T6}    T9   monitors test plate channel 9\n"),
            ),
            at="heated by itself",
            says="is heated by itself, and T9 watches it in the heat of the joint",
        ),
    ),
    edges=(
        Edge(
            ((_SUPPORT, f"{_PLATE} {{}}\n{_SUPPORT}"),),
            keeps="25.4 mm",
            breaks="25.3 mm",
            says="25.3 mm (0.996 in) … 25.4 mm (1 in)",
        ),
        Edge(
            ((_SUPPORT, f"{_PLATE} {{}}\n{_SUPPORT}"),),
            keeps="38.1 mm",
            breaks="38.2 mm",
            says="38.2 mm (1.504 in) … 25.4 mm (1 in)",
        ),
    ),
    good=(
        Good(
            (
                *_plate("of pipe thickness 25.4 mm monitored by T9"),
                (_T6, f"{_T6}    T9   monitors test plate channel 9\n"),
            )
        ),
    ),
    agrees=(
        Agreement("joint.test plate.of", "joint.between.first", "the metal of the joint"),
        Agreement("joint.test plate.thickness", "joint.wall.thickness", "no thinner than the wall"),
        Agreement(
            "joint.test plate.monitored by",
            "joint.thermocouples.thermocouple.monitors",
            "what watches a test plate monitors it",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for plate in joint.entry.test_plates:
        _metal(case, joint, plate)
        walls = [
            side.wall.value
            for side in joint.sides
            if side.wall is not None and isinstance(side.wall.value, Quantity)
        ]
        if plate.thickness is not None and walls and not _fits(plate.thickness, walls):
            _tell(
                case,
                joint,
                plate,
                "thickness",
                f"is {plate.thickness.both()} thick, the joint "
                f"{(min if plate.thickness < min(walls) else max)(walls).both()}",
            )
        watched = plate.monitored_by
        if watched is not None and plate.heated == "heated by itself":
            what = f"is heated by itself, and {watched.name} watches it in the heat of the joint"
            _tell(case, joint, plate, "heated", what)
        tc = next((tc for tc in joint.thermocouples if watched and tc.tag == watched.name), None)
        if tc is not None and tc.entry.monitors != "test plate":
            duty = f"monitors {tc.entry.monitors}" if tc.entry.monitors else f"is a {tc.duty}"
            what = f"is to be watched by {tc.tag}, which {duty}"
            _tell(case, joint, plate, "monitored_by", what)


def _fits(thickness: Quantity, walls: list[Quantity]) -> bool:
    return min(walls) <= thickness and thickness.value <= _THICKER * max(walls).value


def _metal(case: Case, joint: Joint, plate: TestPlate) -> None:
    metal = plate.material.target if plate.material is not None else None
    own = [side.material for side in joint.sides if side.material is not None]
    if not isinstance(metal, Material) or metal.grade is None or not own:
        return
    grades = [one.grade for one in own if one.grade is not None]
    if len(grades) == len(own) and metal.grade not in grades:
        what = f"is of {metal.grade}, the joint of {' and '.join(dict.fromkeys(grades))}"
        _tell(case, joint, plate, "material", what)


def _tell(case: Case, joint: Joint, plate: TestPlate, field: str, what: str) -> None:
    case.add(
        RULE.found(
            f"test plate {plate.name} {what}",
            plate.place(field),
            address=joint.address,
            basis=RULE.basis,
        )
    )
