"""The hold stays below the lower critical temperature of every base metal and of the filler."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited
from hts.checking.rules.helpers.critical import Critical, criticals
from hts.checking.rules.helpers.errors import reading_error
from hts.checking.rules.helpers.steps import hottest
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "Y108",
    "hold-near-lower-critical",
    "error",
    floor="error",
    summary="A hold range whose top, with the errors of measuring, can reach the lower critical "
    "temperature.",
    why="Above it the steel begins to transform and ends up hard or weak; only normalizing or "
    "cutting out puts that right.",
    fix="Lower the top of the range, or state the margin the owner accepts.",
    source="derived: top of the range, control tolerance and limits of error against the lowest "
    "of the stated, analysed and tabled lower critical temperatures of base metals and filler",
    basis="derived",
    bad=(
        Bad(
            (
                (
                    '  grade        "A335 P22"',
                    '  grade        "A335 P22"\n  lower critical 750 degC',
                ),
                (
                    "  rate margin         10 %",
                    "  rate margin         10 %\n  margin below lower critical  20 K",
                ),
            ),
            at="700 .. 730 degC",
            says="730 degC (1346 degF) … 750 degC (1382 degF)",
        ),
        Bad(
            (
                (
                    '  grade        "A335 P22"',
                    '  grade        "A335 P22"\n  lower critical 765 degC',
                ),
            ),
            base="procedure",
            at="700 .. 730 degC",
            says="730 degC (1346 degF) … 765 degC (1409 degF)",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    '  grade        "A335 P22"',
                    '  grade        "A335 P22"\n  lower critical {}',
                ),
            ),
            keeps="740 degC",
            breaks="739 degC",
            at="700 .. 730 degC",
            says="730 degC (1346 degF) … 739 degC (1362 degF)",
        ),
        Edge(
            (
                ("joint W12 {", "filler rod { lower critical {} }\n\njoint W12 {"),
                ('"WPS-12" layers multiple', '"WPS-12" layers multiple filler rod'),
            ),
            keeps="740 degC",
            breaks="739 degC",
            at="700 .. 730 degC",
            says="730 degC (1346 degF) … 739 degC (1362 degF)",
        ),
    ),
    good=(
        Good(
            (
                ("joint W12 {", 'filler rod { classification "E9018-B3" }\n\njoint W12 {'),
                ('"WPS-12" layers multiple', '"WPS-12" layers multiple filler rod'),
            )
        ),
        Good(
            (('  grade        "A335 P22"', '  grade        "A335 P22"\n  lower critical 750 degC'),)
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is not None and cycle.purpose == "normalize and temper":
        return
    top = hottest(case, treatment)
    if top is None:
        return
    hold, high = top
    governing = case.limits(treatment.joint, treatment).of("margin below lower critical")
    demand = governing.setter("minimum") if governing is not None else None
    asked = demand.bounds["minimum"] if demand is not None else None
    margin = cycle.margin_critical if cycle is not None else None
    by = "stated"
    if isinstance(asked, Quantity) and demand is not None and (margin is None or asked > margin):
        margin, by = asked, cited(demand.limit.source)
    error = reading_error(treatment, high)
    reach = high.value + error.kelvin
    broken = [figure for figure in criticals(treatment.joint) if _too_near(figure, reach, margin)]
    if not broken:
        return
    lowest = broken[0]
    firm = next((figure for figure in broken if figure.basis not in ("memory", "practice")), lowest)
    notes = [f"{lowest.origin}: lower critical temperature {lowest.value.both()}"]
    if firm is not lowest:
        notes.append(f"{firm.origin}: lower critical temperature {firm.value.both()}")
    if error.parts:
        metal = high + Quantity.of(error.kelvin, "K", DIFFERENCE)
        notes.append(f"with {error} the metal can be at {metal.both('up')}")
    if margin is not None and not lowest.estimated:
        notes.append(f"margin {margin.both()}, {by}")
    case.add(
        RULE.found(
            f"the top of the range, {high.both()}, is too close to the lower critical "
            f"temperature of {lowest.part}, {lowest.value.both('down')}",
            hold.place("range"),
            address=treatment.address,
            notes=notes,
            others=[] if lowest.at is None else [Label(lowest.at, "lower critical")],
            basis=firm.basis,
        )
    )


def _too_near(figure: Critical, reach: Fraction, margin: Quantity | None) -> bool:
    """Whether the metal can reach the temperature, or come nearer than the margin allows."""
    spared = margin.value if margin is not None and not figure.estimated else 0
    return reach >= figure.value.value or reach + spared > figure.value.value
