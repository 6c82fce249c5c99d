"""A thermocouple stands near the place that is predicted to be coldest."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.predictions import NOTE, judges_band, predicted, spread
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

_LINE = "  rate margin  "
#: K above the low end of the range, and nearer.
_CLOSE = 5.0
_WIDER = (_LINE, f"  predict soak band within 695 .. 730 degC\n{_LINE}")
_PIPE = (
    "  between    pipe and pipe\n  pipe       NPS 12 schedule 120\n  wall       25.4 mm measured\n"
)
_SIDES = (
    "  side       upstream of pipe NPS 12 wall 17.5 mm measured\n"
    "  side       downstream of pipe NPS 12 wall 25.4 mm measured\n"
)

RULE = Rule(
    "T103",
    "coldest-place-unwatched",
    "advice",
    summary="A predicted coldest place, close to the end of the range, with no thermocouple near it.",
    why="What is predicted to be coldest is where the hold is first missed, and nobody would see it.",
    fix="Put a monitoring thermocouple there: often 3:00 and 9:00, the borders of zones, or inside.",
    source="derived: heat conduction through the wall, hts.predict; bore figures chosen on three measurements",
    basis="derived",
    bad=(
        Bad(
            (_WIDER, (_PIPE, _SIDES)),
            at="thermocouples",
            says="703 degC (698 to 704) … 2:30, 40 mm",
        ),
    ),
    good=(Good((_WIDER,)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    found = predicted(case, treatment)
    block = treatment.joint.entry.thermocouples
    if found is None or block is None or not judges_band(case, found) or not found.in_range:
        return
    if not found.unwatched[0] or found.lowest[1] > found.window[0] + _CLOSE:
        return
    case.add(
        RULE.found(
            f"no thermocouple is near the place predicted coldest, {spread(found.lowest)}: "
            f"{found.coldest}",
            block.place(),
            address=f"{treatment.joint.address}/thermocouples",
            notes=[NOTE],
        )
    )
