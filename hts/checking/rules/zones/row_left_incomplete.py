"""Rows of zones and heaters of one joint state the same things."""

from __future__ import annotations

from collections.abc import Sequence

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.fellows import lacking, listed
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint, Zone
from hts.language.vocabulary.declare import Entry

_TOP = "zone top       from 9:00 to 3:00 power 9 kW heaters 2"
_BOTTOM = "zone bottom    from 3:00 to 9:00 power 9 kW heaters 2"
_GAP = "    gap at         12:00\n"
_ROWS = "    heater H1 in top power 4.5 kW count 2\n    heater H2 in bottom power 4.5 kW count 2"

_ZONE = ("power", "heaters", "circuit", "side")
_HEATER = ("kind", "power", "count", "width", "length", "circuit")

RULE = Rule(
    "Z140",
    "row-left-incomplete",
    "warning",
    summary="A zone or a row of heaters that alone leaves out what all the others of the joint "
    "state: power, number, circuit, side, kind or size; or the one zone of a joint, where those of the others do.",
    why="At the pipe somebody fills the gap by guess: a cable goes to the circuit of another zone, "
    "or too few heaters are laid.",
    fix="State it in this row too, or in none.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_BOTTOM, _BOTTOM.replace(" heaters 2", "")),), at="bottom"),
        Bad(((_TOP, f"{_TOP} circuit 1"),), at="bottom"),
        Bad(((_GAP, f"{_ROWS} kind flexible pad\n{_GAP}"),), at="H1"),
    ),
    good=(
        Good(((_TOP, f"{_TOP} circuit 1"), (_BOTTOM, f"{_BOTTOM} circuit 2"))),
        Good(((_GAP, f"{_ROWS}\n{_GAP}"),)),
    ),
    agrees=(
        Agreement("joint.heating.zone.heaters", "joint.heating.zone.name", "in all or none"),
        Agreement("joint.heating.zone.circuit", "joint.heating.zone.name", "in all or none"),
        Agreement("joint.heating.heater.circuit", "joint.heating.heater.name", "in all or none"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    by_method: dict[str | None, list[Joint]] = {}
    for joint in case.joints():
        heating = joint.entry.heating
        if heating is None or not heating.sound:
            continue
        by_method.setdefault(heating.method, []).append(joint)
        _compare(case, joint, "zone", [zone.entry for zone in joint.zones], _ZONE)
        _compare(case, joint, "heater", list(heating.heaters), _HEATER)
    for joints in by_method.values():
        _alone(case, joints)


def _alone(case: Case, joints: Sequence[Joint]) -> None:
    """The one zone of a joint that alone of all that are heated alike leaves something out."""
    for name in ("power", "circuit"):
        zones = [zone for joint in joints for zone in joint.zones]
        without = [zone for zone in zones if not _states(zone, name)]
        if len(without) != 1 or len(zones) < 3 or len(without[0].joint.zones) != 1:
            continue
        zone, other = without[0], next(each for each in zones if each is not without[0])
        case.add(
            RULE.found(
                f"zone {zone.name} of {zone.joint.name} does not state `{name}`, those of the other "
                "joints do",
                zone.place("name"),
                address=f"{zone.joint.address}/heating",
                others=[Label(other.place("name"), "states it")],
                basis=RULE.basis,
            )
        )


def _states(zone: Zone, name: str) -> bool:
    """Whether a zone states it, or its heaters in its place."""
    heating = zone.joint.entry.heating
    rows = heating.heaters if heating is not None else []
    own = [row for row in rows if row.zone is not None and row.zone.name == zone.name]
    return zone.entry.says(name) or (bool(own) and all(row.says(name) for row in own))


def _compare(
    case: Case, joint: Joint, what: str, rows: Sequence[Entry], fields: Sequence[str]
) -> None:
    for row, words in lacking(rows, fields):
        other = next(one for one in rows if one is not row)
        case.add(
            RULE.found(
                f"{what} {row.place('name').text} of {joint.name} does not state {listed(words)}, "
                f"the other{'s do' if len(rows) > 2 else ' does'}",
                row.place("name"),
                address=f"{joint.address}/heating",
                others=[Label(other.place("name"), "states it")],
                basis=RULE.basis,
            )
        )
