"""A hold whose numbers belong to the other temperature scale."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import mistaken_unit
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

RULE = Rule(
    "Q201",
    "temperature-in-wrong-unit",
    "error",
    floor="error",
    summary="A hold range with the numbers of degF and the unit degC, or the other way round.",
    why="At 1300 degC the joint is lost, at 700 degF nothing happens, and one slip of the unit "
    "does it.",
    fix="Write the unit the numbers belong to.",
    source="from memory: usual ranges 595 to 790 degC and 1100 to 1425 degF",
    basis="memory",
    bad=(
        Bad(
            (("700 .. 730 degC", "1300 .. 1350 degC"),),
            at="1300",
            says="of 1300 degC (2372 degF) to 1350 degC (2462 degF)",
        ),
        Bad(
            (("700 .. 730 degC", "700 .. 730 degF"),),
            at="700",
            says="of 700 degF (371 degC) to 730 degF (388 degC)",
        ),
    ),
    good=(Good((("700 .. 730 degC", "1300 .. 1350 degF"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for hold in treatment.entry.segments:
        if not isinstance(hold, Hold):
            continue
        held = case.limits(treatment.joint, treatment).hold_range(hold)
        meant = mistaken_unit(treatment, held) if held is not None else ""
        if held is None or not meant or held.low is None or held.high is None:
            continue
        case.add(
            RULE.found(
                f"a hold of {held.low.both()} to {held.high.both()} is no post-weld heat "
                f"treatment; the figures fit {meant}",
                hold.place("range"),
                address=treatment.address,
                help=f"write the range in {meant}",
            )
        )
