"""Of the thermocouples of a joint that is heat treated some are on its metal."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import ELSEWHERE, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import MONITORS, Joint

#: The base as a joint that goes into a furnace.
_FURNACE = (
    ("heating by resistance", "heating by furnace"),
    (
        "    soak band      by rule\n    heated band    by rule\n    gradient band  by rule\n"
        "    band ratio     5\n"
        "    zone top       from 9:00 to 3:00 power 9 kW heaters 2\n"
        "    zone bottom    from 3:00 to 9:00 power 9 kW heaters 2\n"
        "    gap at         12:00\n",
        "",
    ),
    ("change to the spare", "stop and repair"),
)
_ALL = (
    "    T1   controls top            at 12:00 on weld              channel 1   control channel 1\n"
    "    T2   controls bottom         at 6:00  on weld              channel 2   control channel 2\n"
    "    T1S  spare for T1            at 12:10 on weld              channel 7\n"
    "    T2S  spare for T2            at 6:10  on weld              channel 8\n"
    "    T3   monitors soak edge      at 12:00, 40 mm downstream    channel 3\n"
    "    T4   monitors soak edge      at 6:00,  40 mm upstream      channel 4\n"
    "    T5   monitors heated edge    at 12:00, 287 mm downstream   channel 5\n"
    "    T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
)
_AIR = "    T1   monitors ambient  channel 1\n"
_METAL = (
    "    T2   monitors weld         at 12:00 on weld          channel 2\n"
    "    T3   monitors base metal   at 6:00, 300 mm upstream  channel 3\n"
)

_COUNTED = ("thermocouples", "monitoring thermocouples", "control thermocouples")

RULE = Rule(
    "Z151",
    "metal-unmeasured",
    "error",
    floor="error",
    summary="A joint that is heat treated, of whose thermocouples none is on its metal.",
    why="The air of a furnace is hot long before a thick wall in it is: the hold is counted while the "
    "weld is still cold.",
    fix="Attach thermocouples to the weld or the metal beside it.",
    source="ASME B31.3-2012 331.1.6 (thermocouple pyrometers or other suitable means)",
    basis="published",
    bad=(
        Bad(
            (
                *_FURNACE,
                (_ALL, _AIR),
                ("asme-b31.3 edition 2018, local-heating", "asme-b31.3 edition 2018"),
            ),
            at="ambient",
        ),
    ),
    good=(Good((*_FURNACE, (_ALL, _AIR + _METAL))),),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.monitors", "cycle.hold", "some of them the metal"
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.thermocouples or not (treated(joint) or joint.bakes):
        return
    watching = [tc for tc in joint.thermocouples if tc.duty == MONITORS]
    # Without a duty, or with zones, what is missing is told as that.
    if joint.zones or len(watching) < len(joint.thermocouples):
        return
    if any(tc.entry.monitors not in ELSEWHERE for tc in watching):
        return
    # Where a limit counts them, that there are none is told with it.
    limits = limits_of(case, joint)
    if any(limits.derived(counted, "minimum") for counted in _COUNTED):
        return
    first = watching[0]
    case.add(
        RULE.found(
            f"no thermocouple of {joint.name} is on its metal",
            first.place("monitors"),
            address=f"{joint.address}/thermocouples",
            others=[Label(joint.place("names"), "the joint")],
        )
    )
