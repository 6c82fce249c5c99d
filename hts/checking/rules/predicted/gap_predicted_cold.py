"""The metal beside a gap between heaters stays in the range."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.predictions import NOTE, judges_band, predicted
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Treatment

_LINE = "  rate margin  "
_WIDER = (_LINE, f"  predict soak band within 690 .. 730 degC\n{_LINE}")
_AT = "    gap at         12:00"


RULE = Rule(
    "T106",
    "gap-predicted-cold",
    "advice",
    summary="A gap between heaters so wide that the metal under it is estimated below the range.",
    why="No heat enters there, and a thermocouple beside it does not tell.",
    fix="Close the gap, let heaters overlap by design, or put a thermocouple in it.",
    source="derived: heat conduction through the wall, hts.predict; bore figures chosen on three measurements",
    basis="derived",
    edges=(
        Edge(
            (
                ("  rate margin  ", "  predict soak band within 690 .. 730 degC\n  rate margin  "),
                ("    gap at         12:00", "    gap at         12:00\n    gap at most    {}"),
            ),
            keeps="46 mm",
            breaks="47 mm",
            says="25.5 K … 25 K",
        ),
    ),
    good=(Good((_WIDER, (_AT, f"{_AT}\n    gap at most    20 mm"))),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    found = predicted(case, treatment)
    heating = treatment.joint.entry.heating
    if found is None or heating is None or not judges_band(case, found) or not found.in_range:
        return
    if found.target - found.dip >= found.window[0]:
        return
    case.add(
        RULE.found(
            f"a gap the whole length of the band is estimated {found.dip:.1f} K colder than the "
            f"setpoint, and the range allows {found.target - found.window[0]:g} K",
            heating.place("gap"),
            address=f"{treatment.joint.address}/heating",
            notes=["mats smear it: an upper bound", NOTE],
        )
    )
