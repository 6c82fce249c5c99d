"""A circuit of a supply is rated for what the supply and its cables can give."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import POWER, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule

_CIRCUITS = "  circuits  6\n"
_VOLTAGE = "  voltage 65 V\n  cable rating 200 A\n"
#: Of three phases, the square root of three; of one phase it is less.
_THREE_PHASES = Fraction(1732, 1000)

RULE = Rule(
    "E114",
    "circuit-beyond-supply",
    "warning",
    summary="A circuit of a supply rated for more than the whole supply gives, or than its cables "
    "carry at its voltage.",
    why="One of the figures has slipped, and loads of the circuits are judged by it: cables burn.",
    fix="Correct the power of a circuit by the name plate.",
    source="arithmetic: power is voltage times current, at most 1.732 times that in three phases",
    basis="derived",
    edges=(
        Edge(
            ((_CIRCUITS, _CIRCUITS + "  circuit power {}\n"),),
            keeps="65 kW",
            breaks="66 kW",
            says="66 kW … 65 kVA",
        ),
        Edge(
            ((_CIRCUITS, _CIRCUITS + _VOLTAGE + "  circuit power {}\n"),),
            keeps="22.5 kW",
            breaks="22.6 kW",
            says="22.6 kW … 65 V … 200 A",
        ),
    ),
    good=(Good(((_CIRCUITS, _CIRCUITS + _VOLTAGE + "  circuit power 10.8 kW\n"),)),),
    agrees=(
        Agreement("power source.circuit power", "power source.output", "at most all of it"),
        Agreement(
            "power source.circuit power", "power source.cable rating", "what the cables carry"
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for source in case.spec.file.power_sources:
        power, output = source.circuit_power, source.output
        if not source.sound or power is None:
            continue
        message, other = "", ""
        if output is not None and power.value > output.value:
            message = f"a circuit of {source.name} is rated {power}, and the whole supply {output}"
            other = "output"
        elif source.voltage is not None and source.cable is not None:
            most = source.voltage.value * source.cable.value * _THREE_PHASES
            if power > Quantity.of(most, "W", POWER):
                message = (
                    f"a circuit of {source.name} is rated {power}, more than its cables carry at "
                    f"{source.voltage}, rated {source.cable}"
                )
                other = "cable"
        if message:
            case.add(
                RULE.found(
                    message,
                    source.place("circuit_power"),
                    address=source.name,
                    others=[Label(source.place(other), "rated")],
                )
            )
