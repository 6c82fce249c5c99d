"""The power of a zone is the power of its heaters."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import POWER, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.counted import counted
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint, Zone
from hts.language.vocabulary.heating import Heater

#: kW of one resistance heater in use; common practice, no source.
_LEAST, _MOST = Fraction(8, 10), Fraction(6)
_TOP = "    zone top       from 9:00 to 3:00 power 9 kW heaters 2\n"
_GAP = "    gap at         12:00\n"


def _row(text: str) -> tuple[str, str]:
    return (_GAP, f"    heater H1 in top {text}\n{_GAP}")


RULE = Rule(
    "E107",
    "power-unlike-heaters",
    "warning",
    summary="A zone whose stated power or number of heaters differs from the heaters described, "
    "or that gives each heater a power no resistance heater has.",
    why="The supply is sized for one figure and the pipe gets the other: the rate is not "
    "reached, or cables burn.",
    fix="Add up the heaters of the zone.",
    source="arithmetic: power and number of the heaters; 0.8 to 6 kW for one is common practice",
    basis="practice",
    bad=(Bad((_row("power 4.5 kW count 3"),), at="2", says="has 2 heaters … 3"),),
    edges=(
        Edge(
            ((_TOP, _TOP.replace("9 kW", "{}")),),
            keeps="12 kW",
            breaks="13 kW",
            says="has 13 kW from 2 heaters, 6.5 kW … 0.8 to 6 kW",
        ),
        Edge(
            (
                (
                    "    gap at         12:00\n",
                    "    heater H1 in top power {} count 2\n    gap at         12:00\n",
                ),
            ),
            keeps="4.28 kW",
            breaks="4.27 kW",
            at="9 kW",
            says="has 9 kW … 8.54 kW",
        ),
    ),
    good=(Good((_row("power 4.5 kW count 2"),)),),
    agrees=(
        Agreement("joint.heating.zone.power", "joint.heating.heater.power", "power times count"),
        Agreement("joint.heating.zone.heaters", "joint.heating.heater.count", "the sum of counts"),
        Agreement("joint.heating.zone.power", "joint.heating.zone.heaters", "0.8 to 6 kW for each"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None:
        return
    seen: dict[str, Heater] = {}
    for heater in heating.heaters:
        first = seen.setdefault(heater.name, heater)
        if first is not heater:
            case.add(
                RULE.found(
                    f"two rows of heaters are called {heater.name}",
                    heater.place("name"),
                    address=f"{joint.address}/heating",
                    others=[Label(first.place("name"), "the first")],
                    basis=RULE.basis,
                )
            )
    for zone in joint.zones:
        own = [h for h in heating.heaters if h.zone is not None and h.zone.name == zone.name]
        # Rows that name their circuits are the whole list of what is connected.
        whole = bool(heating.heaters) and all(heater.circuit for heater in heating.heaters)
        if whole and not own and zone.entry.heaters:
            told = f"has {counted(zone.entry.heaters, 'heater')}"
            _tell(case, zone, told, "are none", "heaters", own)
            continue
        if not _sums(case, zone, own) and heating.method == "resistance":
            _each(case, zone)


def _sums(case: Case, zone: Zone, own: list[Heater]) -> bool:
    """Tells where number or power differ from the rows of heaters; whether it told."""
    said = zone.entry
    count = sum(heater.count or 1 for heater in own)
    if own and said.heaters is not None and count != said.heaters:
        _tell(case, zone, f"has {counted(said.heaters, 'heater')}", f"are {count}", "heaters", own)
        return True
    if own and said.power is not None and all(heater.power is not None for heater in own):
        total = sum(heater.power.value * (heater.count or 1) for heater in own if heater.power)
        if abs(total - said.power.value) * 20 > said.power.value:
            power = Quantity.of(total, "W", POWER).in_unit(said.power.unit.symbol)
            _tell(case, zone, f"has {said.power}", f"take {power}", "power", own)
            return True
    return False


def _each(case: Case, zone: Zone) -> None:
    said = zone.entry
    if said.power is None or not said.heaters:
        return
    each = said.power.value / said.heaters
    if _LEAST * 1000 <= each <= _MOST * 1000:
        return
    power = Quantity.of(each, "W", POWER).in_unit("kW")
    case.add(
        RULE.found(
            f"zone {zone.name} has {said.power} from {said.heaters} heaters, {power} each; one "
            "resistance heater gives 0.8 to 6 kW",
            zone.place("power"),
            address=zone.address,
            others=[Label(zone.place("heaters"), "its heaters")],
            basis=RULE.basis,
        )
    )


def _tell(case: Case, zone: Zone, has: str, are: str, field: str, own: list[Heater]) -> None:
    case.add(
        RULE.found(
            f"zone {zone.name} {has}; the heaters described for it {are}",
            zone.place(field),
            address=zone.address,
            others=[Label(heater.place("name"), "a heater of the zone") for heater in own],
            basis=RULE.basis,
        )
    )
