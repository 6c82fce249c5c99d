"""While welding is interrupted the joint is kept at its preheat."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

_WIDTH = "  width             75 mm each side\n"

RULE = Rule(
    "P117",
    "maintained-below-preheat",
    "warning",
    summary="A joint kept below its preheat while welding is interrupted.",
    why="Hydrogen stays in the weld and the next pass goes on cold metal, where the temperature is "
    "measured before the first pass only.",
    fix="Keep it at the preheat, or say that it is preheated again.",
    source="common practice, no source (ISO 13916 has the term)",
    basis="practice",
    edges=(
        Edge(
            (
                (
                    "  width             75 mm each side\n",
                    "  width             75 mm each side\n  maintain at least  {}\n",
                ),
            ),
            keeps="150 degC",
            breaks="149 degC",
            says="149 degC (300 degF) … is 150 degC (302 degF)",
        ),
    ),
    bad=(
        Bad(
            (
                (_WIDTH, f"{_WIDTH}  maintain at least  100 degC\n"),
                ("  at least          150 degC", "  at least          by rule"),
            ),
            at="100 degC",
            says="100 degC (212 degF) … is 150 degC (302 degF)",
        ),
    ),
    good=(Good(((_WIDTH, f"{_WIDTH}  maintain at least  150 degC\n"),)),),
    agrees=(Agreement("preheat.maintain at least", "preheat.at least", "at least the preheat"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound or preheat.maintain is None:
        return
    least = limits_of(case, joint).preheat()
    if least is not None and preheat.maintain < least:
        case.add(
            RULE.found(
                f"{joint.name} is kept at {preheat.maintain.both()} while welding stops, its "
                f"preheat is {least.both()}",
                preheat.place("maintain"),
                address=preheat.address,
                others=[Label(preheat.place("at_least"), "the preheat")],
                basis=RULE.basis,
            )
        )
