"""Thickness, layers and resistance of an insulation fit each other."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

#: W/mK of blanket and board between room and hold temperature; from memory of handbooks.
_BEST, _WORST = Fraction(4, 100), Fraction(30, 100)
#: mm of one layer.
_THIN, _THICK = 6, 110
_BLANKET = "thickness 50 mm layers 2"

RULE = Rule(
    "B108",
    "insulation-unlike-resistance",
    "warning",
    summary="An insulation whose resistance no blanket of that thickness has, or with layers no "
    "blanket is made in.",
    why="Power, time and the heat at the edge of the band are worked out from it.",
    fix="Resistance is thickness over conductivity: check digits and units of all three.",
    source="conductivity of ceramic fibre and mineral wool, 0.04 to 0.3 W/mK (from memory)",
    basis="memory",
    edges=(
        Edge(
            (("thickness 50 mm layers 2", "thickness 50 mm layers 2 resistance {}"),),
            keeps="1.25 m2K/W",
            breaks="1.26 m2K/W",
            says="1.26 m2K/W (7.15 ft2*h*degF/BTU) … 50 mm (1.97 in) … of 0.04 W/mK",
        ),
        Edge(
            (("thickness 50 mm layers 2", "thickness 50 mm layers {}"),),
            keeps="8",
            breaks="9",
            says="9 layers in 50 mm (1.97 in) … 5.56 mm",
        ),
    ),
    good=(Good(((_BLANKET, f"{_BLANKET} resistance 0.5 m2K/W"),)),),
    agrees=(
        Agreement(
            "joint.heating.insulation.resistance",
            "joint.heating.insulation.thickness",
            "thickness over a conductivity there is",
        ),
        Agreement(
            "joint.heating.insulation.layers",
            "joint.heating.insulation.thickness",
            "layers of 6 to 110 mm",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None:
        return
    for blanket in (heating.insulation, heating.inside_insulation):
        if blanket is None or blanket.thickness is None:
            continue
        metres = blanket.thickness.value / 1000
        field, message = "", ""
        if blanket.resistance is not None:
            conductivity = metres / blanket.resistance.value
            if not _BEST <= conductivity <= _WORST:
                field = "resistance"
                message = (
                    f"{blanket.resistance.both()} through {blanket.thickness.both()} would be a "
                    f"conductivity of {float(conductivity):.2g} W/mK"
                )
        if not message and blanket.layers is not None:
            each = blanket.thickness.value / blanket.layers
            if not _THIN <= each <= _THICK:
                field = "layers"
                message = (
                    f"{blanket.layers} layers in {blanket.thickness.both()} would be "
                    f"{float(each):.3g} mm each"
                )
        if message:
            case.add(
                RULE.found(
                    message,
                    blanket.place(field),
                    address=blanket.address,
                    others=[Label(blanket.place("thickness"), "the thickness")],
                    basis=RULE.basis,
                )
            )
