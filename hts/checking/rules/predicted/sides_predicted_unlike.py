"""The two sides of a joint are predicted to be alike."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.predictions import NOTE, predicted
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

_LINE = "  rate margin  "
#: K between the two sides.
_UNLIKE = 5.0
_ASKED = (_LINE, f"  predict lag at most 3 h\n  predict confidence 50 %\n{_LINE}")
_PIPE = (
    "  between    pipe and pipe\n  pipe       NPS 12 schedule 120\n  wall       25.4 mm measured\n"
)
_SIDES = (
    "  side       upstream of pipe NPS 12 wall 13.5 mm measured\n"
    "  side       downstream of pipe NPS 12 wall 25.4 mm measured\n"
)


RULE = Rule(
    "T107",
    "sides-predicted-unlike",
    "advice",
    summary="Sides of unlike walls, one of which is predicted much colder than the other.",
    why="Bands the same on both sides of the weld leave the thicker side behind.",
    fix="Heat the thicker side wider, in zones of its own, with thermocouples of its own.",
    source="derived: heat conduction through the wall, hts.predict; bore figures chosen on three measurements",
    basis="derived",
    bad=(Bad((_ASKED, (_PIPE, _SIDES)), at="side", says="6 K"),),
    good=(Good((_ASKED,)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    found = predicted(case, treatment)
    if found is None or found.sides < _UNLIKE:
        return
    sides = treatment.joint.entry.sides
    case.add(
        RULE.found(
            f"the lowest of the soak band is predicted {found.sides:.0f} K apart on the two sides "
            "of the weld",
            sides[0].place() if sides else treatment.place("name"),
            address=treatment.joint.address,
            notes=[f"lowest {found.lowest[0]:.0f} degC: {found.coldest}", NOTE],
        )
    )
