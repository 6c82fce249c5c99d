"""Each circuit of a supply carries what its heaters take, and one zone alone."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from hts.base.findings import Label
from hts.base.quantities import POWER, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.counted import counted
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.equipment import PowerSource

_TOP = "zone top       from 9:00 to 3:00 power 9 kW heaters 2"
_BOTTOM = "zone bottom    from 3:00 to 9:00 power 9 kW heaters 2"
_OTHER = (_BOTTOM, f"{_BOTTOM} circuit 2")
_LIGHT = (_BOTTOM, f"{_BOTTOM.replace('9 kW', '6 kW')} circuit 2")
_KIND = "  circuits  6\n"

RULE = Rule(
    "E108",
    "circuit-overloaded",
    "warning",
    summary="A circuit that has to carry more than it is rated for, that serves two zones, or that "
    "the supply does not have; a cable rated below the current.",
    why="A circuit above its rating trips or burns its cable while the metal is hot; two zones on "
    "one circuit cannot be controlled apart.",
    fix="Spread the heaters over more circuits, one zone on each.",
    source="arithmetic: power, voltage and current of the circuits",
    basis="derived",
    bad=(
        Bad(
            ((_TOP, f"{_TOP} circuit 1"), (_BOTTOM, f"{_BOTTOM} circuit 1")),
            at="1",
            says="on one circuit, 1",
        ),
        Bad(((_TOP, f"{_TOP} circuit 7"), _OTHER), at="7", says="has 6 circuits"),
        # One rating, one finding.
        Bad(
            (
                (_TOP, f"{_TOP} circuit 1"),
                (_BOTTOM, f"{_BOTTOM} circuit 2"),
                (_KIND, f"{_KIND}  voltage 65 V\n  cable rating 100 A\n"),
            ),
            at="9 kW",
            says="takes 138.5 A at 65 V … rated 100 A",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    "zone top       from 9:00 to 3:00 power 9 kW heaters 2",
                    "zone top       from 9:00 to 3:00 power 9 kW heaters 2 circuit 1",
                ),
                (
                    "zone bottom    from 3:00 to 9:00 power 9 kW heaters 2",
                    "zone bottom    from 3:00 to 9:00 power 6 kW heaters 2 circuit 2",
                ),
                ("  circuits  6\n", "  circuits  6\n  circuit power {}\n"),
            ),
            keeps="9.0 kW",
            breaks="8.9 kW",
            at="9 kW",
            says="9 kW … rated 8.9 kW",
        ),
        Edge(
            (
                (
                    "zone top       from 9:00 to 3:00 power 9 kW heaters 2",
                    "zone top       from 9:00 to 3:00 power 9 kW heaters 2 circuit 1",
                ),
                (
                    "zone bottom    from 3:00 to 9:00 power 9 kW heaters 2",
                    "zone bottom    from 3:00 to 9:00 power 6 kW heaters 2 circuit 2",
                ),
                ("  circuits  6\n", "  circuits  6\n  voltage 65 V\n  cable rating {}\n"),
            ),
            keeps="139 A",
            breaks="138 A",
            at="9 kW",
            says="138.5 A at 65 V … rated 138 A",
        ),
    ),
    good=(
        Good(
            (
                (_TOP, f"{_TOP} circuit 1"),
                _OTHER,
                (_KIND, f"{_KIND}  circuit power 10.8 kW\n  voltage 65 V\n  cable rating 200 A\n"),
            )
        ),
    ),
    agrees=(
        Agreement("joint.heating.zone.power", "power source.circuit power", "at most that"),
        Agreement("joint.heating.zone.circuit", "power source.circuits", "a circuit there is"),
        Agreement("joint.heating.zone.circuit", "joint.heating.zone.name", "one zone a circuit"),
        Agreement("joint.heating.heater.circuit", "power source.circuits", "a circuit there is"),
        Agreement("joint.heating.zone.power", "power source.cable rating", "power over voltage"),
    ),
)


class _Load:
    """What hangs on one circuit."""

    def __init__(self, at: Span, address: str) -> None:
        self.watts = Fraction(0)
        #: The circuits its heaters name, where the zone names another.
        self.astray = ""
        self.zones: dict[str, Span] = {}
        self.at = at
        self.power_at = at
        self.address = address


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    source = treatment.power_source
    if source is None or not source.sound:
        return
    joints = [treatment.joint]
    cycle = treatment.cycle
    if cycle is not None and cycle.together:
        named = (case.spec.joints.get(reference.name) for reference in cycle.joints)
        joints = [joint for joint in named if joint is not None and joint.sound]
        if not joints or joints[0] is not treatment.joint:
            # Told once for all that are heated together.
            return
    loads: dict[str, _Load] = {}
    for joint in joints:
        _add_loads(joint, loads)
    # Fewer circuits than zones are told of the supply.
    few = source.circuits is not None and any(
        source.circuits < len(joint.zones) for joint in joints
    )
    # What one figure of the supply is too low for is told once, of the circuit that carries most.
    short: dict[str, list[tuple[str, _Load, str]]] = {}
    for circuit, load in loads.items():
        _judge(case, source, circuit, load, short)
    for field, told in short.items():
        if field == "circuits" and few:
            continue
        told.sort(key=lambda each: -each[1].watts)
        _, load, message = told[0]
        at = load.at if field == "circuits" else load.power_at
        notes = []
        if len(told) > 1:
            others = ", ".join(
                sorted((each[0] for each in told[1:]), key=lambda name: (len(name), name))
            )
            notes.append(f"the same is so of circuit{'s' if len(told) > 2 else ''} {others}")
        labels = [Label(source.place(field), _FIELDS[field])]
        case.add(RULE.found(message, at, address=load.address, others=labels, notes=notes))


def _add_loads(joint: Joint, found: dict[str, _Load]) -> None:
    """Adds the circuits of a joint with what they carry; a zone whose heaters name circuits is told by these."""
    heating = joint.entry.heating
    for zone in joint.zones:
        rows = [
            heater
            for heater in (heating.heaters if heating is not None else ())
            if heater.zone is not None and heater.zone.name == zone.name and heater.circuit
        ]
        for heater in rows:
            assert heater.circuit is not None
            load = found.setdefault(heater.circuit, _Load(heater.place("circuit"), zone.address))
            load.zones.setdefault(f"{zone.name} of {joint.name}", heater.place("circuit"))
            if heater.power is not None:
                load.watts += heater.power.value * (heater.count or 1)
                load.power_at = heater.place("power")
        circuit = zone.entry.circuit
        known = {heater.circuit for heater in rows}
        if circuit is not None and rows and circuit not in known:
            # The zone says another circuit than its heaters: both hang on it.
            load = found.setdefault(circuit, _Load(zone.place("circuit"), zone.address))
            load.zones.setdefault(f"{zone.name} of {joint.name}", zone.place("circuit"))
            load.astray = ", ".join(sorted(str(one) for one in known))
        if circuit is not None and not rows:
            load = found.setdefault(circuit, _Load(zone.place("circuit"), zone.address))
            load.zones.setdefault(f"{zone.name} of {joint.name}", zone.place("circuit"))
            if zone.entry.power is not None:
                load.watts += zone.entry.power.value
                load.power_at = zone.place("power")


#: The figures of a supply, and what is pointed at there.
_FIELDS = {"circuits": "its circuits", "circuit_power": "rated", "cable": "rated"}


def _judge(
    case: Case,
    source: PowerSource,
    circuit: str,
    load: _Load,
    short: dict[str, list[tuple[str, _Load, str]]],
) -> None:
    """Tells what is wrong with one circuit, or adds it to those that a figure of the supply is too low for."""
    if load.astray:
        message = f"zone {next(iter(load.zones))} names circuit {circuit}, its heaters hang on {load.astray}"
        _tell(case, message, load.at, load, [])
        return
    if not circuit.isdigit() and circuit.replace(".", "").isdigit():
        _tell(case, f"there is no circuit {circuit} of {source.name}", load.at, load, [])
        return
    if len(load.zones) > 1:
        names = list(load.zones)
        places = list(load.zones.values())
        _tell(
            case,
            f"zones {' and '.join(names)} hang on one circuit, {circuit}",
            places[-1],
            load,
            [Label(places[0], names[0])],
        )
        return
    if source.circuits is not None and circuit.isdigit() and int(circuit) > source.circuits:
        circuits = counted(source.circuits, "circuit")
        message = f"{source.name} has {circuits}; there is no circuit {circuit}"
        short.setdefault("circuits", []).append((circuit, load, message))
        return
    power = Quantity.of(load.watts, "W", POWER).in_unit("kW")
    rated = source.circuit_power
    if rated is not None and load.watts > rated.value:
        message = f"circuit {circuit} of {source.name} has to carry {power}, it is rated {rated}"
        short.setdefault("circuit_power", []).append((circuit, load, message))
        return
    if source.voltage is not None and source.cable is not None:
        amperes = load.watts / source.voltage.value
        if amperes > source.cable.value:
            message = (
                f"circuit {circuit} of {source.name} takes {ceil(amperes * 10) / 10:g} A at "
                f"{source.voltage}, its cables are rated {source.cable}"
            )
            short.setdefault("cable", []).append((circuit, load, message))


def _tell(case: Case, message: str, at: Span, load: _Load, others: list[Label]) -> None:
    case.add(RULE.found(message, at, address=load.address, others=others))
