"""The hold lies where the qualification's test piece was held."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Treatment

#: K beyond the range of the test piece (EN ISO 15614-1 allows 20 K either way, from memory).
_BEYOND = 20
_QUALIFIED = '"PQR-31" hold 8 h'

RULE = Rule(
    "J207",
    "hold-outside-qualification",
    "warning",
    summary="A hold range that reaches more than 20 K beyond the temperatures of the test piece.",
    why="Strength, hardness and toughness were shown for another temperature.",
    fix="Hold within the range of the qualification, or name one that covers the hold.",
    source="EN ISO 15614-1 8.5.2 (from memory)",
    basis="memory",
    edges=(
        Edge(
            (('"PQR-31" hold 8 h', '"PQR-31" hold 8 h between 640 .. {}'),),
            keeps="710 degC",
            breaks="709 degC",
            at="700 .. 730 degC",
            says="of 700 degC (1292 degF) to 730 degC (1346 degF) … 640 degC to 709 degC",
        ),
    ),
    good=(Good(((_QUALIFIED, f"{_QUALIFIED} between 690 .. 720 degC"),)),),
    agrees=(
        Agreement("cycle.hold.range", "joint.qualified.between", "no more than 20 K beyond it"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    tests = [test for test in treatment.joint.entry.qualified if test.temperature is not None]
    if treatment.is_bake or not tests:
        return
    for hold, held in holds(case, treatment):
        assert held.low is not None and held.high is not None
        for test in tests:
            tried = test.temperature
            assert tried is not None and tried.low is not None and tried.high is not None
            if (
                held.low.value < tried.low.value - _BEYOND
                or held.high.value > tried.high.value + _BEYOND
            ):
                case.add(
                    RULE.found(
                        f"a hold of {held.low.both()} to {held.high.both()}; the test piece of "
                        f"{test.record} was held at {tried.low} to {tried.high}",
                        hold.place("range"),
                        address=treatment.address,
                        others=[Label(test.place("temperature"), "the test piece")],
                        basis=RULE.basis,
                    )
                )
                return
