"""A range a procedure gives can be kept with the instruments of the trade."""

from __future__ import annotations

from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Edge, Rule
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.limit_lines import LimitLine
from hts.syntax.formula import Formula, FormulaError, UnknownFact

#: Error of wire, instrument and control up and down: no local treatment stays closer. Practice.
_LEAST = Quantity.of(15, "K", DIFFERENCE)

RULE = Rule(
    "R124",
    "range-too-narrow",
    "warning",
    summary="A range of temperature in a procedure narrower than 15 K.",
    why="Wire, instrument and control each take some kelvins of it: no job can keep the range, and "
    "one of its ends is probably a slip.",
    fix="Check the digits of both ends.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n  bake temperature at least 300 degC at most {}",
                ),
            ),
            keeps="315 degC",
            breaks="314 degC",
            base="owner",
            says="300 degC (572 degF) to 314 degC (597.2 degF) … 15 K (27 degF)",
        ),
    ),
)
_TEMPERATURES = ("hold temperature", "bake temperature")


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for line in procedure.limits:
            ends = _ends(line) if line.quantity in _TEMPERATURES else None
            if ends is None or not 0 < ends[1].value - ends[0].value < _LEAST.value:
                continue
            case.add(
                RULE.found(
                    f"a {line.quantity} of {ends[0].both()} to {ends[1].both()} leaves less than "
                    f"{_LEAST.both()} for all errors and the control",
                    line.place("maximum"),
                    address=procedure.name,
                    basis=RULE.basis,
                )
            )


def _ends(line: LimitLine) -> tuple[Quantity, Quantity] | None:
    low, high = _fixed(line.minimum), _fixed(line.maximum)
    return (low, high) if low is not None and high is not None else None


def _fixed(text: FormulaText | None) -> Quantity | None:
    """A bound that hangs on no fact."""
    if text is None:
        return None
    try:
        value = Formula.parse(text.text).evaluate({})
    except (UnknownFact, FormulaError):
        return None
    return value if isinstance(value, Quantity) else None
