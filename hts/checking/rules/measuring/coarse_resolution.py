"""A recorder shows small steps."""

from __future__ import annotations

from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import instruments
from hts.checking.rules.rule import Edge, Rule

_COARSEST = Quantity.of(10, "K", DIFFERENCE)

RULE = Rule(
    "C107",
    "coarse-resolution",
    "warning",
    summary="An instrument that shows steps of more than 10 K.",
    why="Spread and rate cannot be read from such steps.",
    fix="Use an instrument with a finer resolution.",
    source="common practice, no source",
    basis="practice",
    about=("recorder.resolution",),
    edges=(
        Edge(
            # Of a recorder less is too coarse for a narrow range of the hold.
            (("+/- 1.0 degC\n", "+/- 5 degC\n  resolution  {}\n"),),
            keeps="10 K",
            breaks="11 K",
            says="of 11 K (19.8 degF); at most 10 K (18 degF)",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for instrument in instruments(case):
        if instrument.resolution is not None and instrument.resolution > _COARSEST:
            case.add(
                RULE.found(
                    f"{instrument.name} shows steps of {instrument.resolution.both()}; at most "
                    f"{_COARSEST.both('down')} is common practice",
                    instrument.place("resolution"),
                    address=instrument.name,
                )
            )
