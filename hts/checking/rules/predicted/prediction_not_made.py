"""A prediction that is asked for can be made."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.govern.foreseen import Unforeseen
from hts.checking.rules.helpers.predictions import is_asked, wanted
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

_LINE = "  rate margin  "
_SOON = "  begin within 48 h\n"
_ASKED = (_LINE, f"{_SOON}  predict soak band\n{_LINE}")
_STEEL = (('"A335 P22"', '"A335 P5"'), ("Cr 2.20 %, Mo 0.98 %", "Cr 5.00 %, Mo 0.50 %"))


RULE = Rule(
    "T108",
    "prediction-not-made",
    "advice",
    summary="A prediction that is asked for and cannot be made.",
    why="What is not predicted is not judged either: nothing is said of the inside.",
    fix="State what it lacks, or have the field worked out and measured in another way.",
    source="derived: heat conduction through the wall, hts.predict; bore figures chosen on three measurements",
    basis="derived",
    bad=(Bad((_ASKED, *_STEEL), at="stress-relief"),),
    good=(Good(((_LINE, f"{_SOON}{_LINE}"), *_STEEL)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    found = wanted(case, treatment)
    if not isinstance(found, Unforeseen):
        return
    asked = is_asked(case, treatment)
    case.add(
        RULE.found(
            f"the temperatures of {treatment.address} are not predicted: {found.reason}",
            treatment.place("name" if not treatment.is_bake else "joints"),
            address=treatment.address,
            notes=["a prediction is asked for" if asked else "asked for by the check alone"],
        )
    )
