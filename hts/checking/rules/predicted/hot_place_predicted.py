"""No place is predicted above the range or close to the lower critical temperature."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.predictions import (
    NOTE,
    is_cold,
    judges_band,
    others,
    place,
    predicted,
    spread,
)
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

_LINE = "  rate margin  "
#: K below the lower critical temperature, and nearer.
_CLOSE = 10.0
_ASKED = (_LINE, f"  predict soak band\n{_LINE}")
_TO = ("  heat  to 715 degC ", "  heat  to 727 degC ")
_HOT = ("for 2 h", "for 2 h target 727 degC")


RULE = Rule(
    "T104",
    "hot-place-predicted",
    "warning",
    summary="A place predicted above the range, or close to the lower critical temperature.",
    why="Beside zone borders metal gets hotter than the control thermocouples, and may transform.",
    fix="Lower the setpoint, and put a thermocouple there.",
    source="derived: heat conduction through the wall, hts.predict; bore figures chosen on three measurements",
    basis="derived",
    bad=(
        Bad(
            (_ASKED, _HOT, _TO),
            at="predict soak band",
            says="728 degC (726 to 731) … 4:00 … 730 degC",
        ),
    ),
    good=(
        Good(
            (
                _HOT,
                _TO,
            )
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    found = predicted(case, treatment)
    if found is None or not judges_band(case, found) or is_cold(found):
        return
    margin = found.margin
    close = margin is not None and margin[1] < _CLOSE
    if found.in_range and not close:
        return
    notes = [NOTE]
    if margin is not None:
        notes.insert(
            0, f"{margin[1]:.0f} K below the lower critical temperature, {found.critical}, at 95 %"
        )
    if found.unwatched[1]:
        notes.insert(0, "no thermocouple is near it")
    case.add(
        RULE.found(
            f"the highest of the soak band is predicted {spread(found.highest)}: {found.hottest}; "
            f"the range ends at {found.window[1]:.0f} degC",
            place(treatment, found, "soak band"),
            address=treatment.address,
            others=others(found, "soak band"),
            notes=notes,
        )
    )
