"""Heaters that lie open on a pipe are fed with low voltage."""

from __future__ import annotations

from hts.base.quantities import VOLTAGE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Edge, Good, Rule

#: Sets give 60 to 80 V, some 110 V; common practice, no source.
_MOST = Quantity.of(110, "V", VOLTAGE)
_CIRCUITS = "  circuits  6\n"

RULE = Rule(
    "E117",
    "voltage-too-high",
    "warning",
    summary="A set for resistance heaters that feeds them with more than 110 V.",
    why="The beads are open and the pipe is bare metal: at the voltage of the mains whoever touches a "
    "heater is killed, and heaters made for 60 to 80 V burn out.",
    fix="Write the voltage at the heaters, that of the secondary side.",
    source="common practice, no source (60 to 80 V, seldom 110 V)",
    basis="practice",
    bad=(
        Bad(
            ((_CIRCUITS, f"{_CIRCUITS}  voltage 230 V\n"),),
            at="230 V",
            says="with 230 V … 60 to 80 V, at most 110 V",
        ),
    ),
    edges=(
        Edge(
            ((_CIRCUITS, f"{_CIRCUITS}  voltage {{}}\n"),),
            keeps="110 V",
            breaks="111 V",
            says="with 111 V … 60 to 80 V, at most 110 V",
        ),
    ),
    good=(
        Good(
            (
                (
                    "power source PS1 {",
                    "power source PS2 {\n  kind induction supply\n  output 35 kW\n  voltage 400 V\n}\n\n"
                    "power source PS1 {",
                ),
            )
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for source in case.spec.file.power_sources:
        if source.voltage is None or source.kind == "induction supply" or source.voltage <= _MOST:
            continue
        case.add(
            RULE.found(
                f"{source.name} feeds heaters with {source.voltage}; sets for the pipe give 60 to "
                "80 V, at most 110 V",
                source.place("voltage"),
                address=source.name,
                basis=RULE.basis,
            )
        )
