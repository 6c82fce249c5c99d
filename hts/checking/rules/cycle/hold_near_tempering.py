"""The hold stays below the tempering temperature of the base metal."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited
from hts.checking.rules.helpers.errors import reading_error
from hts.checking.rules.helpers.steps import hottest
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "Y109",
    "hold-near-tempering",
    "error",
    summary="A hold range whose top, with the errors of measuring, comes too close to the tempering "
    "temperature of a part, whatever the treatment is for.",
    why="Above the temperature it was tempered at the base metal loses strength for good.",
    fix="Lower the top of the range, or state the margin the owner accepts.",
    source="EN 13445-4:2021 11.1 (the actual tempering temperature is not exceeded)",
    basis="published",
    bad=(
        Bad(
            (
                ('  grade        "A335 P22"', '  grade        "A335 P22"\n  tempered at 745 degC'),
                (
                    "  rate margin         10 %",
                    "  rate margin         10 %\n  margin below tempering  28 K",
                ),
            ),
            at="700 .. 730 degC",
            says="730 degC (1346 degF) … 745 degC (1373 degF)",
        ),
        Bad(
            (
                ('  grade        "A335 P22"', '  grade        "A335 P22"\n  tempered at 735 degC'),
                ("  purpose             stress relief", "  purpose             tempering"),
            ),
            at="700 .. 730 degC",
            says="730 degC (1346 degF) … 735 degC (1355 degF)",
        ),
    ),
    edges=(
        Edge(
            (('  grade        "A335 P22"', '  grade        "A335 P22"\n  tempered at {}'),),
            keeps="740 degC",
            breaks="739 degC",
            at="700 .. 730 degC",
            says="730 degC (1346 degF) … 739 degC (1362 degF)",
        ),
    ),
    good=(
        Good((('  grade        "A335 P22"', '  grade        "A335 P22"\n  tempered at 745 degC'),)),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is None or cycle.purpose == "normalize and temper":
        return
    top = hottest(case, treatment)
    if top is None:
        return
    hold, high = top
    governing = case.limits(treatment.joint, treatment).of("margin below tempering")
    demand = governing.setter("minimum") if governing is not None else None
    asked = demand.bounds["minimum"] if demand is not None else None
    margin, by = cycle.margin_tempering, "stated"
    if isinstance(asked, Quantity) and demand is not None and (margin is None or asked > margin):
        margin, by = asked, cited(demand.limit.source)
    error = reading_error(treatment, high)
    for side in treatment.joint.sides:
        figure = side.figure("tempering_temperature")
        if figure is None or not isinstance(figure.value, Quantity):
            continue
        reach = high.value + error.kelvin
        if reach + (margin.value if margin is not None else 0) <= figure.value.value:
            continue
        notes = [] if margin is None else [f"margin {margin.both()}, {by}"]
        if error.parts:
            metal = high + Quantity.of(error.kelvin, "K", DIFFERENCE)
            notes.append(f"with {error} the metal can be at {metal.both('up')}")
        case.add(
            RULE.found(
                f"the top of the range, {high.both()}, is too close to the tempering temperature "
                f"of the {side.name} side, {figure.value.both('down')}",
                hold.place("range"),
                address=treatment.address,
                notes=notes,
                others=[] if figure.at is None else [Label(figure.at, "tempered at")],
            )
        )
        return
