"""The lines of a procedure that limit one quantity each."""

from __future__ import annotations

from types import new_class

from hts.base.quantities import LENGTH, TEMPERATURE, Dimension
from hts.language.vocabulary.declare import Entry, clause, flag
from hts.language.vocabulary.formulas import ConditionText, Expression, FormulaText
from hts.language.vocabulary.types import Choice, Name, Text
from hts.limits.quantities import LIMITED, TAKEN

#: Quantities whose width must say whether it is in total or on each side.
BANDS = ("soak band", "heated band", "gradient band", "bake width", "bake gradient band")


class LimitLine(Entry):
    """A limit on one quantity, where its condition holds."""

    quantity: str = ""
    minimum: FormulaText | None
    maximum: FormulaText | None
    exactly: FormulaText | None
    above: FormulaText | None = None
    within: FormulaText | None = None
    option: str | None = clause(
        "with", Choice(*TAKEN), "Applies only where a job makes use of this option of a book"
    )
    when: FormulaText | None = clause(
        "when", ConditionText(), "Condition under which it applies", example="t > 60 mm"
    )
    silent: bool = flag(
        "where others are silent", "Counts only where no other document limits the quantity"
    )
    note: str | None = clause(
        "because", Text(), "Why the owner asks for it", example='"Measured wall scatter"'
    )
    replaces: list[str] = clause(
        "replaces",
        Name("the row of a book", "local-heating.zones", of="row"),
        "Row of a practice book, or limit of a procedure this one amends, that it stands in for",
        many=True,
    )


def _limit_line(quantity: str) -> type[LimitLine]:
    """The entry that limits one quantity; its words are the quantity's name."""
    limited = LIMITED[quantity]
    assert isinstance(limited.kind, Dimension)
    example = _EXAMPLES[quantity]
    members: dict[str, object] = {
        "__doc__": f"Limit on the {quantity}: {limited.meaning}.",
        "quantity": quantity,
        "minimum": None,
        "maximum": None,
        "exactly": None,
    }
    bounds = {"minimum": "at least", "maximum": "at most", "exactly": "is"}
    members["one_of"] = tuple(part for part in bounds if part in limited.directions)
    sided = quantity in BANDS
    for part, words in bounds.items():
        if part in limited.directions:
            members[part] = clause(
                words,
                Expression(limited.kind, quantity, sided, _USUAL[quantity]),
                f"The {quantity} {words} this",
            )
    if quantity.endswith("rate"):
        members["above"] = clause(
            "above",
            Expression(TEMPERATURE, "temperature", usual="150 .. 600 degC"),
            "Temperature from which the limit counts",
        )
    if quantity.endswith("spread"):
        members["within"] = clause(
            "within", Expression(LENGTH, "distance", usual="0.4 .. 6 m"), "Over this distance"
        )
    if quantity == "excursion":
        members["in_total"] = flag("in total", "All times added")
    if quantity == "rate excursion":
        members["each"] = flag("each", "Each time")
    name = "".join(word.capitalize() for word in quantity.replace("-", " ").split()) + "Line"
    begins = {"words": quantity, "example": example}
    made: type[LimitLine] = new_class(name, (LimitLine,), begins, lambda body: body.update(members))
    return made


_EXAMPLES = {
    "governing thickness": "governing thickness is thicker_wall",
    "weld thickness": "weld thickness is throat",
    "soak band": "soak band at least cap_width + 2 * min(t, 50 mm) total",
    "heated band": "heated band at least 5 t each side",
    "gradient band": "gradient band at least heated_band + 4 * sqrt(inside_radius * t) total",
    "zones": "zones at least 2 when outside_diameter >= 200 mm",
    "control thermocouples": "control thermocouples at least 2 when outside_diameter >= 250 mm",
    "monitoring thermocouples": "monitoring thermocouples at least 4",
    "thermocouples": "thermocouples at least 6",
    "leg separation": "leg separation at most 6 mm",
    "attachment energy": "attachment energy at most 125 J",
    "spare distance": "spare distance at most 25 mm",
    "furnace overlap": "furnace overlap at least 1.5 m",
    "insulation": "insulation at least 0.35 m2K/W",
    "preheat": "preheat at least 150 degC when p_number = 5A",
    "interpass": "interpass at most 315 degC",
    "weld cooling time": "weld cooling time at least 8 s at most 25 s",
    "preheat width": "preheat width at least 75 mm",
    "preheat distance": "preheat distance at least 75 mm when thicker_wall > 50 mm",
    "bake temperature": "bake temperature at least 300 degC",
    "bake time": "bake time at least 2 h",
    "bake width": "bake width at least 3 t each side",
    "bake gradient band": "bake gradient band at least heated_band + 150 mm total",
    "cycles": "cycles at least 2 when filler_family = B6",
    "charge temperature": "charge temperature at most 300 degC",
    "unload temperature": "unload temperature at most 300 degC",
    "hold temperature": "hold temperature at least 690 degC at most 720 degC when p_number = 5A",
    "hold time": "hold time at least 2.5 min/mm * t",
    "total hold": "total hold at most qualified_hold / 0.8",
    "tempering parameter": "tempering parameter at most 19.2 when en_group = 5.2",
    "heating rate": "heating rate at most 110 degC/h above 315 degC when t <= 60 mm",
    "cooling rate": "cooling rate at most 110 degC/h above 315 degC",
    "heating spread": "heating spread at most 140 K within 4.6 m",
    "holding spread": "holding spread at most 25 K",
    "start of control": "start of control at most 300 degC",
    "end of control": "end of control at most 300 degC",
    "excursion": "excursion at most 10 min in total",
    "rate excursion": "rate excursion at most 10 min each",
    "delay before heat treatment": "delay before heat treatment at most 48 h",
    "temperature before heat treatment": "temperature before heat treatment at most 95 degC",
    "margin below lower critical": "margin below lower critical at least 20 K",
    "margin below tempering": "margin below tempering at least 20 K",
}

#: What the trade would call a plausible limit; widths in total.
_USUAL = {
    "governing thickness": "1.5 .. 300 mm",
    "weld thickness": "1 .. 300 mm",
    "soak band": "15 .. 700 mm",
    "heated band": "50 .. 3000 mm",
    "gradient band": "80 .. 5000 mm",
    "zones": "1 .. 24",
    "control thermocouples": "1 .. 24",
    "monitoring thermocouples": "1 .. 48",
    "thermocouples": "1 .. 64",
    "leg separation": "1 .. 25 mm",
    "attachment energy": "40 .. 150 J",
    "spare distance": "2 .. 50 mm",
    "furnace overlap": "0.1 .. 5 m",
    "insulation": "0.1 .. 2.5 m2K/W",
    "preheat": "5 .. 400 degC",
    "interpass": "80 .. 450 degC",
    "weld cooling time": "1 .. 200 s",
    "preheat width": "20 .. 600 mm",
    "preheat distance": "20 .. 300 mm",
    "bake temperature": "200 .. 450 degC",
    "bake time": "30 min .. 72 h",
    "bake width": "60 .. 2000 mm",
    "bake gradient band": "80 .. 5000 mm",
    "cycles": "1 .. 4",
    "charge temperature": "100 .. 450 degC",
    "unload temperature": "50 .. 450 degC",
    "hold temperature": "450 .. 1150 degC",
    "hold time": "15 min .. 60 h",
    "total hold": "30 min .. 200 h",
    "tempering parameter": "14 .. 24",
    "heating rate": "20 .. 600 degC/h",
    "cooling rate": "20 .. 600 degC/h",
    "heating spread": "45 .. 200 K",
    "holding spread": "8 .. 90 K",
    "start of control": "50 .. 450 degC",
    "end of control": "50 .. 450 degC",
    "excursion": "0, 2 .. 60 min",
    "rate excursion": "0, 1 .. 60 min",
    "delay before heat treatment": "2 h .. 30 d",
    "temperature before heat treatment": "20 .. 250 degC",
    "margin below lower critical": "0, 3 .. 50 K",
    "margin below tempering": "0, 3 .. 50 K",
}

LIMIT_LINES: dict[str, type[LimitLine]] = {
    quantity: _limit_line(quantity)
    for quantity, limited in LIMITED.items()
    if isinstance(limited.kind, Dimension)
}
