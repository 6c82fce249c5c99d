"""An owner's general procedure: limits with conditions, for a family of joints."""

from __future__ import annotations

from types import new_class

from hts.base.quantities import LENGTH, TEMPERATURE, TIME, Dimension, Quantity
from hts.base.quantities.clock import ClockPosition
from hts.language.vocabulary.declare import Entry, clause, entry, family, flag, inner, value
from hts.language.vocabulary.formulas import ConditionText, Expression, FormulaText
from hts.language.vocabulary.job import METHODS, Prepared, Revision
from hts.language.vocabulary.joint import KINDS, SERVICES
from hts.language.vocabulary.thermocouples import PLACES
from hts.language.vocabulary.types import Amount, Choice, Clock, Count, Name, Size, Text
from hts.limits.quantities import HEAT_TREATMENT, LIMITED
from hts.syntax.formula import Text as Words

#: Quantities whose width must say whether it is in total or on each side.
BANDS = ("soak band", "heated band", "gradient band", "bake width", "bake gradient band")

#: Options of a book that a cycle makes use of.
TAKEN = ("lower-temperature hold", "thin-wall hold", "code exemption")
#: What a procedure can forbid or allow: those, and a way of writing that hides the figure.
OPTIONS = (*TAKEN, "widths by multiples of wall")
#: The decision rules for measured temperatures that keep part of the range free, the milder first.
GUARD_BANDS = ("one-sided 95 %", "expanded uncertainty")


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
    note: str | None = clause(
        "because", Text(), "Why the owner asks for it", example='"Measured wall scatter"'
    )
    replaces: list[str] = clause(
        "replaces",
        Name("the row of a book", "local-heating.zones"),
        "Row of a practice book it stands in for",
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
                words, Expression(limited.kind, quantity, sided), f"The {quantity} {words} this"
            )
    if quantity.endswith("rate"):
        members["above"] = clause(
            "above",
            Expression(TEMPERATURE, "temperature"),
            "Temperature from which the limit counts",
        )
    if quantity.endswith("spread"):
        members["within"] = clause("within", Expression(LENGTH, "distance"), "Over this distance")
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
    "preheat width": "preheat width at least 75 mm",
    "preheat distance": "preheat distance at least 75 mm when thicker_wall > 50 mm",
    "bake temperature": "bake temperature at least 300 degC",
    "bake time": "bake time at least 2 h",
    "bake width": "bake width at least 3 t each side",
    "bake gradient band": "bake gradient band at least heated_band + 150 mm total",
    "charge temperature": "charge temperature at most 300 degC",
    "hold temperature": "hold temperature at least 690 degC at most 720 degC when p_number = 5A",
    "hold time": "hold time at least 2.5 min/mm * t",
    "total hold": "total hold at most qualified_hold / 0.8",
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

LIMIT_LINES: dict[str, type[LimitLine]] = {
    quantity: _limit_line(quantity)
    for quantity, limited in LIMITED.items()
    if isinstance(limited.kind, Dimension)
}
_STATUSES = LIMITED[HEAT_TREATMENT].kind
assert isinstance(_STATUSES, Words)


STATUSES = _STATUSES.words


class Treatment(Entry, words=HEAT_TREATMENT, example=f"{HEAT_TREATMENT} required when t > 19 mm"):
    """Whether the owner wants post-weld heat treatment."""

    status: str = value(Choice(*STATUSES), "Required, exempt, or none foreseen")
    when: FormulaText | None = clause("when", ConditionText(), "Condition under which it applies")
    note: str | None = clause("because", Text(), "Why", example='"Service is wet and sour"')


class Forbids(Entry, words="forbids", example="forbids lower-temperature hold"):
    """An option of a book, or a way of stating widths, that the owner does not allow."""

    option: str = value(Choice(*OPTIONS), "Option")
    when: FormulaText | None = clause("when", ConditionText(), "Condition under which it applies")
    note: str | None = clause("because", Text(), "Why", example='"Toughness was not tested"')


class Allows(Forbids, words="allows", example="allows lower-temperature hold when p_number = 1"):
    """An option that the owner allows."""


class PNumbers(Entry, words="applies to p-number", example="applies to p-number 1, 3, 4, 5A"):
    """P-numbers the procedure is for."""

    each: list[str] = value(Size("a P-number", "5A"), "P-number", many=True)


class Kinds(Entry, words="applies to kind", example="applies to kind girth butt, branch"):
    """Kinds of weld the procedure is for."""

    each: list[str] = value(Choice(*KINDS), "Kind of weld", many=True)


class Methods(Entry, words="applies to method", example="applies to method resistance"):
    """Heating methods the procedure is for."""

    each: list[str] = value(Choice(*METHODS), "Heating method", many=True)


class Services(Entry, words="applies to service", example="applies to service amine"):
    """Services the procedure is for."""

    each: list[str] = value(Choice(*SERVICES), "Service", many=True)


class SizeRange(Entry):
    """A size the procedure is for."""

    one_of = ("at_least", "at_most")
    at_least: Quantity | None = clause("at least", Amount(LENGTH), "Smallest", example="60.3 mm")
    at_most: Quantity | None = clause("at most", Amount(LENGTH), "Largest", example="75 mm")


class WallRange(SizeRange, words="applies to wall", example="applies to wall at most 75 mm"):
    """Walls the procedure is for."""


class DiameterRange(
    SizeRange,
    words="applies to outside diameter",
    example="applies to outside diameter at least 60.3 mm",
):
    """Outside diameters the procedure is for."""


class When(Entry, words="applies when", example="applies when carbon <= 0.30 %"):
    """A further condition under which the procedure applies."""

    condition: FormulaText = value(ConditionText(), "Condition")


class RequiredMonitor(
    Entry,
    words="requires monitor",
    example="requires monitor soak edge count 2 when axis = horizontal",
):
    """Places that have to be watched."""

    watched: str = value(Choice(*PLACES), "Place")
    positions: list[ClockPosition] = clause(
        "at", Clock(), "Clock position where one has to be", many=True, example="6:00"
    )
    count: int | None = clause("count", Count(), "How many")
    each_side: bool = flag("each side", "So many on each side of the weld")
    when: FormulaText | None = clause("when", ConditionText(), "Condition under which it applies")


class RequiredControl(
    Entry,
    words="requires control at",
    example="requires control at 12:00, 6:00 when axis = horizontal",
):
    """Places on the circumference where a thermocouple has to control."""

    positions: list[ClockPosition] = value(Clock(), "Clock position", many=True)
    when: FormulaText | None = clause("when", ConditionText(), "Condition under which it applies")


class RequiredBake(
    Entry,
    words="requires bake",
    example="requires bake when p_number = 15E and thicker_wall > 13 mm",
):
    """Joints that are baked out before they cool down after welding."""

    when: FormulaText | None = clause("when", ConditionText(), "Condition under which it applies")
    note: str | None = clause("because", Text(), "Why", example='"Two cracks in 2024"')


class RequiredGuardBand(
    Entry,
    words="requires guard band",
    example="requires guard band expanded uncertainty",
):
    """Part of the range that a job has to keep free for measuring uncertainty."""

    rule: str = value(Choice(*GUARD_BANDS), "Decision rule, or a stricter one")
    when: FormulaText | None = clause("when", ConditionText(), "Condition under which it applies")


class RequiredSpare(
    Entry, words="requires spare for", example="requires spare for controlling thermocouples"
):
    """Thermocouples that must have a spare."""

    which: str = value(Choice("controlling thermocouples", "all thermocouples"), "Which")
    apart: Quantity | None = clause(
        "within", Amount(LENGTH), "Greatest distance of the spare", example="25 mm"
    )
    when: FormulaText | None = clause("when", ConditionText(), "Condition under which it applies")


class Procedure(
    Entry,
    words="procedure",
    block=True,
    example='procedure P-07 "Treatment of piping welds" { hold time at least 2 h }',
):
    """A general procedure for a family of joints."""

    name: str = value(Name("a name", "P-07"), "What jobs call it")
    title: str = value(Text(), "Title", optional=True)
    revision: Revision | None = inner(Revision)
    prepared: Prepared | None = inner(Prepared)
    p_numbers: PNumbers | None = inner(PNumbers)
    kinds: Kinds | None = inner(Kinds)
    methods: Methods | None = inner(Methods)
    services: Services | None = inner(Services)
    walls: WallRange | None = inner(WallRange)
    diameters: DiameterRange | None = inner(DiameterRange)
    conditions: list[When] = inner(When, many=True)
    limits: list[LimitLine] = family(*LIMIT_LINES.values(), doc="Limits of the procedure")
    treatments: list[Treatment] = inner(Treatment, many=True)
    forbids: list[Forbids] = inner(Forbids, many=True)
    allows: list[Allows] = inner(Allows, many=True)
    controls: list[RequiredControl] = inner(RequiredControl, many=True)
    monitors: list[RequiredMonitor] = inner(RequiredMonitor, many=True)
    spares: list[RequiredSpare] = inner(RequiredSpare, many=True)
    bakes: list[RequiredBake] = inner(RequiredBake, many=True)
    guard_bands: list[RequiredGuardBand] = inner(RequiredGuardBand, many=True)
    interval: Quantity | None = entry(
        "recorder interval at most",
        Amount(TIME),
        "Longest time between readings",
        example="recorder interval at most 60 s",
    )
    calibration: Quantity | None = entry(
        "calibration at most",
        Amount(TIME),
        "Longest time from calibration to the end of the work",
        example="calibration at most 365 d",
    )
    left_to_job: list[str] = entry(
        "leaves to the job",
        Text(),
        "What the job has to decide",
        many=True,
        example='leaves to the job "Number of heaters"',
    )
    cautions: list[str] = entry(
        "caution",
        Text(),
        "Caution on the paper of every job",
        many=True,
        example='caution "Surfaces up to 780 degC"',
    )
    checks: list[str] = entry(
        "check",
        Text(),
        "Check on the paper of every job",
        many=True,
        example='check "Bore drained and vented"',
    )
    hand_over: list[str] = entry(
        "hand over",
        Text(),
        "Document to hand over",
        many=True,
        example='hand over "Chart with channel map"',
    )
