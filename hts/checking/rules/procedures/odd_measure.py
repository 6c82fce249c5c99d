"""A limit is worked out from what it is a matter of."""

from __future__ import annotations

import re

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.formulas import Written, written
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.cycle import Bake
from hts.language.vocabulary.demand_lines import Requires
from hts.language.vocabulary.limit_lines import LimitLine
from hts.language.vocabulary.preheat import Preheat
from hts.language.vocabulary.procedure import Treatment
from hts.limits import FACTS, HEAT_TREATMENT
from hts.syntax.formula import Text

_LINE = "  holding spread   at most 25 K"
_TIME = "  hold time        at least 2.5 min/mm * t"
_RATE = "  cooling rate     at most 200 degC/h above 315 degC"

RULE = Rule(
    "R123",
    "odd-measure",
    "warning",
    summary="A limit of a procedure that is worked out from a size it is no matter of, such as the "
    "hold time from the width of the cap, or from the very quantity it limits; or that hangs on "
    "a width no code tells welds apart by.",
    why="One name put for another in a formula gives another figure for every weld, and each of "
    "them looks right by itself.",
    fix="Name the size that is meant. Where it is meant so, say why with `because`.",
    source="common practice: what the shipped books work each quantity out from: times and rates "
    "from thicknesses, bands from widths, radius and wall",
    basis="practice",
    bad=(
        Bad(
            ((_TIME, "  hold time        at least 2.5 min/mm * cap_width"),),
            base="owner",
            at="2.5 min/mm * cap_width",
            says="hold time … cap_width",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  soak band at least soak_band + 2 * t total"),),
            base="owner",
            at="soak_band + 2 * t",
            says="limits itself",
        ),
        Bad(
            ((_RATE, f"{_RATE} when girth > 1 m"),),
            base="owner",
            at="girth > 1 m",
            says="cooling rate … girth",
        ),
        Bad(
            (
                (
                    _LINE,
                    f"{_LINE}\n  hold temperature at most lower_critical - 20 K when hold_minimum is known",
                ),
            ),
            base="owner",
            at="hold_minimum is known",
            says="hold_minimum",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  requires bake when p_number = 5A and cap_width > 13 mm"),),
            base="owner",
            at="p_number = 5A and cap_width > 13 mm",
            says="a bake hangs on cap_width",
        ),
        Bad(
            (
                (
                    _LINE,
                    f"{_LINE}\n  heated band at least soak_band + 5 * sqrt(inside_diameter * wall) total",
                ),
            ),
            base="owner",
            at="sqrt(inside_diameter * wall)",
            says="the root of inside_diameter times wall",
        ),
        Bad(
            (
                (
                    _LINE,
                    f"{_LINE}\n  requires preheat soak at least 15 min when inside_radius > 25 mm",
                ),
            ),
            base="owner",
            at="inside_radius > 25 mm",
            says="`preheat soak at least 15 min` hangs on inside_radius",
        ),
    ),
    good=(
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  soak band at least cap_width + 2 * t total\n  zones at least 3 when girth > 1 m",
                ),
            ),
            base="owner",
        ),
        Good(
            ((_RATE, f'{_RATE} when girth > 1 m because "Measured on the mock-up"'),),
            base="owner",
        ),
    ),
)

_THICKNESSES = (
    "t", "wall", "thicker_wall", "thinner_wall", "weld_thickness", "throat", "groove_depth",
    "run_wall", "branch_wall", "heavy_wall",
)  # fmt: skip
_ROUND = ("outside_diameter", "inside_diameter", "inside_radius", "girth", "nominal_size")
_WIDTHS = (*_THICKNESSES, "pad_thickness", "fillet_cover", "cap_width", *_ROUND)
_METAL = ("lower_critical", "filler_lower_critical", "tempering_temperature")

#: What each quantity is worked out from; of those that are not named here, from anything.
_FROM = {
    "hold time": (*_THICKNESSES, "qualified_hold", "earlier_hold"),
    "total hold": (*_THICKNESSES, "qualified_hold"),
    "bake time": _THICKNESSES,
    "heating rate": _THICKNESSES,
    "cooling rate": _THICKNESSES,
    "preheat width": _THICKNESSES,
    "preheat distance": _THICKNESSES,
    "hold temperature": (*_METAL, "lowered_by"),
    "soak band": _WIDTHS,
    "bake width": (*_WIDTHS, "soak_band"),
    "heated band": (*_WIDTHS, "soak_band"),
    "gradient band": (*_WIDTHS, "soak_band", "heated_band"),
}
_ROOT_OF_A_DIAMETER = re.compile(
    r"sqrt\(\s*((?:inside|outside)_diameter)\s*\*\s*(wall|t|thicker_wall)\s*\)"
)
_BOUNDS = ("minimum", "maximum", "exactly")
#: Sizes by which conditions tell no welds apart: where times and temperatures of the metal are
#: limited, where rates are, and where it is asked whether a weld is treated at all.
_OF_PLACE = ("cap_width", "soak_band", "heated_band", "inside_radius", "inside_diameter", "girth")
_NO_CONDITION = {
    **dict.fromkeys(
        ("hold time", "total hold", "hold temperature", "holding spread", "excursion",
         "margin below lower critical", "margin below tempering", "start of control",
         "end of control", "bake time", "bake temperature", "delay before heat treatment",
         "temperature before heat treatment"),
        (*_OF_PLACE, "combined_thickness"),
    ),
    **dict.fromkeys(
        ("heating rate", "cooling rate"),
        (*_OF_PLACE, "outside_diameter", "nominal_size", "combined_thickness"),
    ),
    **dict.fromkeys(("preheat", "interpass"), _OF_PLACE),
    **dict.fromkeys(
        ("zones", "control thermocouples", "monitoring thermocouples", "thermocouples"),
        ("cap_width", "soak_band", "heated_band"),
    ),
    HEAT_TREATMENT: ("cap_width", "soak_band", "heated_band", "girth", "combined_thickness"),
}  # fmt: skip


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for line in written(procedure):
            message = _odd(line)
            if message:
                case.add(RULE.found(message, line.place, address=procedure.name, basis=RULE.basis))


def _odd(line: Written) -> str:
    limit = line.line
    if isinstance(limit, Requires) and limit.what is not None:
        # Its `because` says why it is asked for, not why by this measure.
        root = limit.what.targets[0].root
        none: tuple[str, ...] = _NO_CONDITION[HEAT_TREATMENT] if root is Bake else _OF_PLACE
        compared = line.compared if root in (Bake, Preheat) and line.part == "when" else []
        found = [name for name in compared if name in none]
        what = "a bake" if root is Bake else f"`{limit.what.text}`"
        return (
            f"{what} hangs on {found[0]}, which no code tells welds apart by for it"
            if found
            else ""
        )
    if not isinstance(limit, LimitLine | Treatment):
        return ""
    quantity = limit.quantity if isinstance(limit, LimitLine) else HEAT_TREATMENT
    itself = quantity.replace(" ", "_")
    if line.part in _BOUNDS and itself in line.names:
        return f"the {quantity} limits itself: {itself} stands in its own limit"
    if limit.note is not None:
        return ""
    if line.part == "when":
        odd = [name for name in line.compared if name in _NO_CONDITION.get(quantity, ())]
        if odd:
            return f"{line.about} hangs on {odd[0]}, which no code tells welds apart by for it"
        return _asks_for_another(line, limit) if isinstance(limit, LimitLine) else ""
    root_of = _ROOT_OF_A_DIAMETER.search(line.formula.text) if line.part in _BOUNDS else None
    if root_of is not None and quantity.endswith(" band"):
        return (
            f"{line.about} takes the root of {root_of[1]} times {root_of[2]}: lengths that heat "
            "reaches along a pipe go by its radius"
        )
    known = _FROM.get(quantity) if line.part in _BOUNDS else None
    odd = [
        name for name in line.names if known is not None and name not in known and _is_size(name)
    ]
    return f"{line.about} is worked out from {odd[0]}, which is no measure for it" if odd else ""


def _is_size(name: str) -> bool:
    """Whether it is a number that any weld has: what few have is told by another rule."""
    fact = FACTS[name]
    return not (isinstance(fact.kind, Text) or fact.kinds or fact.seldom)


def _asks_for_another(line: Written, limit: LimitLine) -> str:
    """A condition that asks whether a fact is known, where another one is needed."""
    bounds = [getattr(limit, part) for part in _BOUNDS]
    needed = {
        name
        for bound in bounds
        if bound is not None
        for name in Written(limit, "", bound, "").names
    }
    for name in line.names:
        if (
            needed
            and line.asks_whether_known(name)
            and name not in needed
            and line.names.count(name) == 1
        ):
            return (
                f"the limit on {limit.quantity} asks whether {name} is known, and is worked out "
                f"from {', '.join(sorted(needed))}"
            )
    return ""
