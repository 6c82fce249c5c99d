"""A controller is set in the unit its own figures and its programs are written in."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.vocabulary.equipment import Controller
from hts.language.vocabulary.segments import Cool, Heat

_SEGMENTS = "  segments           16\n"

RULE = Rule(
    "E118",
    "controller-in-other-unit",
    "warning",
    summary="A controller set in degF whose range is in degC, as is every program it runs, or the "
    "other way round.",
    why="A program in degC keyed into a set that takes degF heats to less than half; the other way "
    "round it melts.",
    fix="Write the unit the set shows, or the range and the programs in that unit.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_SEGMENTS, f"{_SEGMENTS}  unit degF\n"),),
            at="degF",
            says="C1 is set in degF; its range and its programs are in degC",
        ),
    ),
    good=(
        Good(((_SEGMENTS, f"{_SEGMENTS}  unit degC\n"),)),
        # One of the two is enough: the set is turned over to the unit of the program.
        Good(
            (
                (_SEGMENTS, f"{_SEGMENTS}  unit degF\n"),
                ("6 type K range 0 .. 1200 degC", "6 type K range 32 .. 2192 degF"),
            )
        ),
    ),
    agrees=(
        Agreement("controller.unit", "controller.channels.range", "in that unit, or its programs"),
        Agreement("controller.unit", "cycle.heat.to", "in that unit, or the range"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for controller in case.spec.file.controllers:
        reads = controller.channels.range if controller.channels is not None else None
        top = reads.high if reads is not None else None
        if controller.unit is None or top is None or top.unit.symbol == controller.unit:
            continue
        if controller.unit in _units_of_programs(case, controller):
            continue
        case.add(
            RULE.found(
                f"{controller.name} is set in {controller.unit}; its range and its programs are in "
                f"{top.unit.symbol}",
                controller.place("unit"),
                address=controller.name,
                others=[Label(controller.channels.place("range"), "its range")]
                if controller.channels is not None
                else [],
                basis=RULE.basis,
            )
        )


def _units_of_programs(case: Case, controller: Controller) -> set[str]:
    """The units of the steps of all treatments it controls."""
    units: set[str] = set()
    for joint in case.joints():
        for treatment in (*joint.bakes, *joint.cycles):
            if treatment.controller is controller:
                units |= {
                    segment.to.unit.symbol
                    for segment in treatment.entry.segments
                    if isinstance(segment, Heat | Cool) and isinstance(segment.to, Quantity)
                }
    return units
