"""Low-hydrogen electrodes are dried hot enough."""

from __future__ import annotations

from hts.base.quantities import HYDROGEN, TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule

#: Up to here a filler is called low-hydrogen.
_LOW = Quantity.of(10, "ml/100g", HYDROGEN)
_LEAST = Quantity.of(260, "degC", TEMPERATURE)


def _filler(said: str) -> tuple[tuple[str, str], ...]:
    entries = f"  diffusible hydrogen 5 ml/100g\n  {said}\n"
    return (("joint W12 {", f"filler rod {{\n{entries}}}\n\njoint W12 {{"),)


RULE = Rule(
    "M210",
    "electrode-dried-too-cold",
    "warning",
    summary="A low-hydrogen electrode or flux that is dried below 260 °C.",
    why="The moisture in the covering stays, and its hydrogen goes into the weld.",
    fix="Dry it as its maker asks.",
    source="AWS D1.1:2020 5.3.2.4 (from memory)",
    basis="memory",
    edges=(
        Edge(
            _filler("dried at {} for 2 h"),
            keeps="260 degC",
            breaks="259 degC",
            says="5 ml/100g … 259 degC … 260 degC",
        ),
    ),
    good=(Good(_filler("dried at 350 degC for 2 h")),),
    agrees=(
        Agreement("filler.dried.at", "filler.diffusible hydrogen", "hot enough for so little"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for filler in case.spec.file.fillers:
        dried = filler.dried
        if not filler.sound or dried is None or dried.at is None:
            continue
        low = filler.hydrogen is not None and filler.hydrogen <= _LOW
        if low and dried.at < _LEAST:
            case.add(
                RULE.found(
                    f"{filler.name} with {filler.hydrogen} is dried at {dried.at}; "
                    f"usual is at least {_LEAST}",
                    dried.place("at"),
                    address=filler.name,
                    basis=RULE.basis,
                )
            )
