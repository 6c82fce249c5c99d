"""A band of some width brings the bore into the range."""

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
_NARROW = (_LINE, f"  predict soak band within 712 .. 730 degC\n{_LINE}")
_WIDER = (_LINE, f"  predict soak band within 690 .. 730 degC\n{_LINE}")


RULE = Rule(
    "T102",
    "no-width-cures-bore",
    "warning",
    summary="A bore so cold that no width of the heated band brings it into the range.",
    why="The difference through the wall is the heat lost in the bore: width does not change it.",
    fix="Line or pack the bore, close the ends, or heat from inside; measure inside.",
    source="derived: heat conduction through the wall, hts.predict; bore figures chosen on three measurements",
    basis="derived",
    bad=(
        Bad(
            (_NARROW,), at="712 .. 730 degC", says="3 K … 3 K … 703 degC (698 to 705) … 6:00, 40 mm"
        ),
    ),
    good=(Good((_WIDER,)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    found = predicted(case, treatment)
    if found is None or not judges_band(case, found) or not is_cold(found):
        return
    if found.cure is not None:
        return
    notes = ["a lined bore would do" if found.lined else "not even a lined bore would do", NOTE]
    case.add(
        RULE.found(
            f"even an endless heated band leaves the lowest {found.left:.0f} K below the setpoint, "
            f"and the range allows {found.target - found.window[0]:.0f} K; lowest predicted "
            f"{spread(found.lowest)}: {found.coldest}",
            place(treatment, found, "soak band"),
            address=treatment.address,
            others=others(found, "soak band"),
            notes=notes,
        )
    )
