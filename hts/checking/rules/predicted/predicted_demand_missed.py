"""Lag and axial gradient are predicted within what is asked."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.predictions import NOTE, others, place, predicted
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

_LINE = "  rate margin  "
_OWNER = "  requires spare for controlling thermocouples"
_LAG = (_LINE, f"  predict lag at most 2 min\n{_LINE}")
_LATE = (_LINE, f"  predict lag at most 2 h\n  predict confidence 50 %\n{_LINE}")


RULE = Rule(
    "T109",
    "predicted-demand-missed",
    "warning",
    summary="A predicted lag or axial gradient above what the job or its procedure asks for.",
    why="The owner wants it kept, and as planned it is not expected to be.",
    fix="Heat more slowly, widen band or insulation, or line the bore.",
    source="derived: heat conduction through the wall, hts.predict; bore figures chosen on three measurements",
    basis="derived",
    bad=(
        Bad((_LAG,), at="predict lag", says="at most 2 min … 6 min; 0 of 100 cases"),
        Bad(
            ((_OWNER, f"  requires predicted lag at most 2 min when t > 20 mm\n{_OWNER}"),),
            base="procedure",
            at="stress-relief",
            says="at most 2 min … 6 min; 0 of 100 cases",
        ),
        Bad(
            (
                (
                    _OWNER,
                    "  requires predicted axial gradient at most 25 K over 100 mm when t > 20 mm\n"
                    f"{_OWNER}",
                ),
            ),
            base="procedure",
            at="stress-relief",
            says="at most 25 K over 100 mm … 151 K",
        ),
    ),
    good=(Good((_LATE,)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    found = predicted(case, treatment)
    if found is None:
        return
    for answer in found.answers:
        if answer.holds or answer.what == "soak band":
            continue
        case.add(
            RULE.found(
                f"{answer.asked}, by {answer.by}: predicted {answer.predicted}",
                place(treatment, found, answer.what),
                address=treatment.address,
                others=others(found, answer.what),
                notes=[NOTE],
            )
        )
