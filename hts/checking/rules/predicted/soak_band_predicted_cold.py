"""The whole soak band is predicted to be in range, through the wall and all round."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.govern.foreseen import Foreseen
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
_ASKED = (_LINE, f"  predict soak band\n{_LINE}")
_ENDS = "    ends           closed and vented"
_LINED = (
    _ENDS,
    '    liner  "ceramic fibre blanket" thickness 25 mm width 700 mm total\n'
    f"    draught  stopped by plugs at 1 m\n{_ENDS}",
)
_OWNER = "  requires spare for controlling thermocouples"
_WIDER = (_LINE, f"  predict soak band within 690 .. 730 degC\n{_LINE}")


RULE = Rule(
    "T101",
    "soak-band-predicted-cold",
    "warning",
    summary="A soak band whose coldest place is not predicted to come into the range.",
    why="The thermocouples on the outside read the hold while metal inside or beside them misses it.",
    fix="Widen the heated band, line the bore, or raise the setpoint within the range; measure there.",
    source="derived: heat conduction through the wall, hts.predict; bore figures chosen on three measurements",
    basis="derived",
    bad=(
        Bad(
            (_ASKED,),
            at="predict soak band",
            says="700 .. 730 degC in 77 of 100 cases, 90 are … 703 degC (698 to 705) … 6:00, 40 mm",
        ),
        Bad(
            ((_OWNER, f"  requires predicted soak band when t > 20 mm\n{_OWNER}"),),
            base="procedure",
            at="stress-relief",
            says="700 .. 730 degC in 77 of 100 cases, 90 are … 703 degC (698 to 705) … 6:00, 40 mm",
        ),
    ),
    good=(Good((_WIDER,)), Good((_ASKED, _LINED))),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    found = predicted(case, treatment)
    if found is None or not judges_band(case, found) or not is_cold(found) or found.cure is None:
        return
    low, high = found.window
    notes = [
        f"in range for {found.minutes[0]:.0f} of {found.minutes[1]:.0f} min of the hold",
        _cure(found),
        NOTE,
    ]
    if not found.bore_known:
        notes.insert(0, f"the state of the bore is not known: {found.bore} are all in the spread")
    case.add(
        RULE.found(
            f"the soak band is predicted in {low:.0f} .. {high:.0f} degC in "
            f"{100 * found.share:.0f} of 100 cases, {100 * found.wanted:.0f} are asked; lowest "
            f"{spread(found.lowest)}: {found.coldest}",
            place(treatment, found, "soak band"),
            address=treatment.address,
            others=others(found, "soak band"),
            notes=notes,
        )
    )


def _cure(found: Foreseen) -> str:
    """What would bring it into the range: more width, or an input that is better known."""
    if found.cure is not None and found.cure > found.heated:
        return (
            f"with all inputs as stated and time to settle, a heated band of {found.cure:.0f} mm "
            "would do"
        )
    return f"as stated the band is wide enough: settle what may be off first, the {found.first}"
