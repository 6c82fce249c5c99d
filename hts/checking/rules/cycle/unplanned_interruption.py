"""A treatment says what is done when something fails."""

from __future__ import annotations

from functools import partial

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import unmet
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.demanded import Demanded

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
        f"`{words}`"
        for words, value in (
            ("interrupted hold", entry.interrupted_hold),
            ("on power loss", entry.power_loss),
            ("on thermocouple loss", entry.thermocouple_loss),
        )
        if value is None and not unmet(case, treatment.joint, partial(_is_for, words))
    ]
    if lacking:
        case.add(
            RULE.found(
                f"{treatment.name} does not say {', '.join(lacking)}",
                treatment.place("name"),
                address=treatment.address,
            )
        )


def _is_for(words: str, demanded: Demanded) -> bool:
    """Whether a procedure asks for the entry, and tells itself that it is not there."""
    return any(f".{words}" in path for path in demanded.paths)
