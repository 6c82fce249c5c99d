"""A treatment says what is done when something fails."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "Y111",
    "unplanned-interruption",
    "advice",
    summary="A cycle without a rule for an interrupted hold, for power loss or for a lost "
    "thermocouple.",
    why="Otherwise somebody decides alone, at night, with the metal hot; decided beforehand it "
    "costs nothing.",
    fix="State what is done in each case.",
    source="AWS D10.10:2021 on interruptions and over-rate",
    basis="published",
    bad=(
        Bad(
            (("  on power loss       resume at the present temperature\n", ""),), at="stress-relief"
        ),
        Bad(
            (
                ("  on power loss       resume at the present temperature\n", ""),
                ("  on thermocouple loss  change to the spare\n", ""),
            ),
            at="stress-relief",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    if treatment.is_bake or not heats(treatment):
        return
    lacking = [
        words
        for words, value in (
            ("`interrupted hold`", entry.interrupted_hold),
            ("`on power loss`", entry.power_loss),
            ("`on thermocouple loss`", entry.thermocouple_loss),
        )
        if value is None
    ]
    if lacking:
        case.add(
            RULE.found(
                f"{treatment.name} does not say {', '.join(lacking)}",
                treatment.place("name"),
                address=treatment.address,
            )
        )
