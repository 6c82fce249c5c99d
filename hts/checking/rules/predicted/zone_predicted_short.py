"""Each zone is predicted to follow the program with the power it has."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.predictions import NOTE, predicted
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

_LINE = "  rate margin  "
#: min. A zone may be behind for a while when a ramp begins.
_NOTICED = 15.0
_ASKED = (_LINE, f"  predict axial gradient at most 250 K\n{_LINE}")
_TOP = ("from 9:00 to 3:00 power 9 kW", "from 9:00 to 3:00 power 4.5 kW")
_BOTTOM = ("from 3:00 to 9:00 power 9 kW", "from 3:00 to 9:00 power 6.7 kW")


RULE = Rule(
    "T105",
    "zone-predicted-short",
    "warning",
    summary="A zone that is predicted to be at its greatest power and still behind the program.",
    why="It arrives late or never, while its neighbours go on and the wall bends.",
    fix="Add heaters, line the bore or thicken the insulation, or heat more slowly.",
    source="derived: heat conduction through the wall, hts.predict; bore figures chosen on three measurements",
    basis="derived",
    bad=(Bad((_ASKED, _TOP, _BOTTOM), at="4.5 kW", says="4.5 kW … for 55 min"),),
    good=(Good((_ASKED,)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    found = predicted(case, treatment)
    if found is None:
        return
    zones = {zone.name: zone for zone in treatment.joint.zones}
    for short in found.short:
        zone = zones.get(short.name)
        if short.minutes < _NOTICED:
            continue
        case.add(
            RULE.found(
                f"zone {short.name} is predicted to be at its full {short.power / 1000:.1f} kW and "
                f"behind the program for {short.minutes:.0f} min",
                zone.place("power") if zone is not None else treatment.place("name"),
                address=zone.address if zone is not None else treatment.address,
                notes=[NOTE],
            )
        )
