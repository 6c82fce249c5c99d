"""An instrument named for preheat reads at the preheat."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_PROBE = "  measured by       contact probe"
_OTHER = "  measured by thermocouple\n  recorded by R1\n"

RULE = Rule(
    "P140",
    "probe-begins-above-preheat",
    "warning",
    summary="A probe or pyrometer for preheat that reads nothing as low as the preheat, where "
    "another instrument does.",
    why="Whoever takes it to the weld cannot tell whether it is warm enough, or reads a figure that "
    "means nothing.",
    fix="Correct the range, or name another instrument.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_PROBE, _OTHER + _PROBE), ("from 0 degC to", "from {} to")),
            keeps="150 degC",
            breaks="151 degC",
            says="from 151 degC (304 degF) … 150 degC (302 degF)",
        ),
    ),
    good=(
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
        # A crayon shows one temperature: others of the set show the rest.
        if way.how == "temperature-indicating crayon" or way.lowest is None or way.lowest <= least:
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
