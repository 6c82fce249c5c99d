"""A hold that a procedure keeps below a critical temperature is kept well below it."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import DIFFERENCE, TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Edge, Good, Rule
from hts.syntax.formula import Formula, FormulaError, UnknownFact

_LINE = "  holding spread   at most 25 K"


def _with(formula: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, f"{_LINE}\n  hold temperature at most {formula} when p_number = 5A"),)


#: K. A thermocouple of class 1 with its cable is allowed about as much at 750 degC (IEC 60584-1).
_LEAST = Quantity.of(5, "K", DIFFERENCE)
_CRITICAL = ("lower_critical", "filler_lower_critical", "tempering_temperature")

RULE = Rule(
    "R145",
    "margin-within-error",
    "warning",
    summary="A limit of the hold by a critical or tempering temperature and a margin that is less than "
    "thermocouples err by.",
    why="Such a margin covers nothing: a digit has slipped, and metal that is read as just below has "
    "transformed.",
    fix="State the margin that is meant, or the temperature itself.",
    source="IEC 60584-1 tolerances: 0.4 % of the temperature for the wire alone, from memory",
    basis="memory",
    edges=(
        Edge(
            _with("min(770 degC, filler_lower_critical - {})"),
            keeps="5 K",
            breaks="4.9 K",
            base="owner",
            says="at most min(770 degC, filler_lower_critical - 4.9 K) leaves less than thermocouples err by",
        ),
    ),
    good=(
        Good(_with("min(770 degC, filler_lower_critical - 20 K)"), base="owner"),
        Good(_with("min(770 degC, filler_lower_critical)"), base="owner"),
    ),
)


#: Any of them, to see what a formula takes off.
_ANY = Quantity.of(700, "degC", TEMPERATURE)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for limit in procedure.limits:
            if limit.quantity != "hold temperature" or limit.maximum is None or not limit.sound:
                continue
            margin = _margin(limit.maximum.text)
            if margin is None or not 0 < margin < _LEAST.value:
                continue
            case.add(
                RULE.found(
                    f"{limit.quantity} at most {limit.maximum.text} leaves less than "
                    "thermocouples err by",
                    limit.place("maximum"),
                    address=procedure.name,
                    basis=RULE.basis,
                )
            )


def _margin(text: str) -> Fraction | None:
    """What a formula takes off a critical temperature, in K; None for one of other facts."""
    formula = Formula.parse(text)
    names = set(formula.names)
    if not names or not names <= {*_CRITICAL}:
        return None
    try:
        value = formula.evaluate(dict.fromkeys(names, _ANY))
    except (UnknownFact, FormulaError):
        return None
    return _ANY.value - value.value if isinstance(value, Quantity) else None
