"""An instrument named for preheat reads at the preheat."""

from __future__ import annotations

from math import inf

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.preheat import Measured

#: Crayons of a set are no farther apart than so many K; from memory.
_CRAYON_STEP = 30
_PROBE = "  measured by       contact probe"
_CRAYONS = "  measured by temperature-indicating crayon at 76 mm from {} to 315 degC\n"
_OTHER = "  measured by thermocouple\n  recorded by R1\n"

RULE = Rule(
    "P140",
    "probe-begins-above-preheat",
    "warning",
    summary="A probe, pyrometer or set of crayons for preheat that shows nothing as low as the "
    "preheat, where another instrument does.",
    why="Whoever takes it to the weld cannot tell whether it is warm enough, or reads a figure that "
    "means nothing.",
    fix="Correct the range, or name another instrument.",
    source="common practice, no source (a set of crayons: within 30 K of the preheat)",
    basis="practice",
    edges=(
        Edge(
            ((_PROBE, _OTHER + _PROBE), ("from 0 degC to", "from {} to")),
            keeps="150 degC",
            breaks="151 degC",
            says="from 151 degC (304 degF) … 150 degC (302 degF)",
        ),
        Edge(
            ((_PROBE, _CRAYONS + _PROBE),),
            keeps="180 degC",
            breaks="181 degC",
            says="crayon at W12 … from 181 degC (358 degF) … 150 degC (302 degF)",
        ),
    ),
    good=(
        # A crayon by itself shows the interpass temperature.
        Good(
            (
                (
                    "from 0 degC to 400 degC",
                    "from 0 degC to 400 degC\n"
                    "  measured by temperature-indicating crayon at 76 mm from 315 degC to 315 degC",
                ),
            )
        ),
    ),
    agrees=(Agreement("preheat.measured by.from", "preheat.at least", "at or below it"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound:
        return
    least = limits_of(case, joint).preheat()
    if least is None or all(
        way.lowest is not None and way.lowest > least for way in preheat.measured
    ):
        return  # that nothing shows the preheat is told as that
    for way in preheat.measured:
        if way.lowest is None or way.lowest.value <= least.value + _step(way):
            continue
        case.add(
            RULE.found(
                f"the {way.how} at {joint.name} reads from {way.lowest.both()}, and the preheat is "
                f"{least.both()}",
                way.place("lowest"),
                address=f"{joint.address}/preheat",
                others=[Label(preheat.place("at_least"), "the preheat")],
                basis=RULE.basis,
            )
        )


def _step(way: Measured) -> float:
    """By how much more than the preheat it may begin, K: crayons come in steps, and one by itself
    shows another temperature than the preheat, as that of interpass."""
    if way.how != "temperature-indicating crayon":
        return 0
    return inf if way.highest in (None, way.lowest) else _CRAYON_STEP
