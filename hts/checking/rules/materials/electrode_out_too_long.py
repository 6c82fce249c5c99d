"""Low-hydrogen electrodes do not lie in open air for long, and are kept warm until then."""

from __future__ import annotations

from hts.base.findings import Finding
from hts.base.quantities import HYDROGEN, TEMPERATURE, TIME, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.vocabulary.material import Filler

#: Up to here a filler is called low-hydrogen.
_LOW = Quantity.of(10, "ml/100g", HYDROGEN)
_MOST = Quantity.of(4, "h", TIME)
_OVEN = Quantity.of(120, "degC", TEMPERATURE)


def _filler(said: str) -> tuple[tuple[str, str], ...]:
    entries = f"  diffusible hydrogen 5 ml/100g\n  {said}\n"
    return (("joint W12 {", f"filler rod {{\n{entries}}}\n\njoint W12 {{"),)


RULE = Rule(
    "M211",
    "electrode-out-too-long",
    "warning",
    summary="A low-hydrogen electrode or flux that may lie in open air for more than 4 h, or is held "
    "below 120 °C.",
    why="It takes up moisture from the air, and its hydrogen goes into the weld.",
    fix="Shorten the time, and hold electrodes hot until they are used.",
    source="AWS D1.1:2020 5.3.2 and Table 5.1 (from memory)",
    basis="memory",
    edges=(
        Edge(
            _filler("out of oven at most {}"),
            keeps="4 h",
            breaks="4.1 h",
            says="5 ml/100g … 4.1 h … 4 h",
        ),
        Edge(
            _filler("holding oven at least {}"),
            keeps="120 degC",
            breaks="119 degC",
            says="5 ml/100g … 119 degC … 120 degC",
        ),
    ),
    good=(Good(_filler("holding oven at least 130 degC")),),
    agrees=(
        Agreement(
            "filler.out of oven at most", "filler.diffusible hydrogen", "short for so little"
        ),
        Agreement(
            "filler.holding oven at least", "filler.diffusible hydrogen", "hot enough for so little"
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for filler in case.spec.file.fillers:
        low = filler.hydrogen is not None and filler.hydrogen <= _LOW
        if not filler.sound or not low:
            continue
        told = f"{filler.name} with {filler.hydrogen}"
        if filler.exposed is not None and filler.exposed > _MOST:
            message = f"{told} may lie open for {filler.exposed}; usual is at most {_MOST}"
            case.add(_found(message, filler, "exposed"))
        if filler.oven is not None and filler.oven < _OVEN:
            message = f"{told} is held at {filler.oven}; usual is at least {_OVEN}"
            case.add(_found(message, filler, "oven"))


def _found(message: str, filler: Filler, field: str) -> Finding:
    return RULE.found(message, filler.place(field), address=filler.name, basis=RULE.basis)
