"""A treatment says at which temperatures control and record begin and end."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "Y106",
    "unstated-control-range",
    "warning",
    summary="A treatment that does not say at which temperature control and record begin or end.",
    why="Rates are limited only above these; without them nobody knows what the chart must show.",
    fix="Write `start of control` and `end of control`.",
    source="common practice, no source; AWS D10.10:2021 on where rates are controlled",
    basis="practice",
    bad=(
        Bad((("  end of control      300 degC\n", ""),), at="stress-relief"),
        Bad(
            (("  end of control      300 degC\n", ""), ("  start of control    300 degC\n", "")),
            at="stress-relief",
        ),
    ),
    good=(Good((("end of control      300 degC", "end of control      310 degC"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    lacking = [
        words
        for words, value in (
            ("where control begins", entry.start_control),
            ("where it ends", entry.end_control),
        )
        if value is None
    ]
    if lacking and heats(treatment):
        case.add(
            RULE.found(
                f"{treatment.name} does not say {' and '.join(lacking)}",
                treatment.place("joints" if treatment.is_bake else "name"),
                address=treatment.address,
            )
        )
