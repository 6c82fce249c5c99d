"""Formulas and conditions of rule books and procedures: parsed, unit-checked, evaluated exactly."""

from hts.syntax.formula.errors import FormulaError, UnknownFact
from hts.syntax.formula.formula import Formula
from hts.syntax.formula.many import Cases
from hts.syntax.formula.value_kinds import (
    CONDITION,
    Condition,
    Fact,
    Kind,
    Text,
    Words,
    fits,
    kind_of,
    one_of,
)

__all__ = [
    "CONDITION",
    "Cases",
    "Condition",
    "Fact",
    "Formula",
    "FormulaError",
    "Kind",
    "Text",
    "UnknownFact",
    "Words",
    "fits",
    "kind_of",
    "one_of",
]
