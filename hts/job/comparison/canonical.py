"""Values in one spelling, so that two texts that mean the same compare equal.

A canonical value is a short text: the exact number in the canonical unit of its dimension, a name,
a word. It is what changes are matched by and what approvals are keyed by.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import Any

from hts.base.quantities import Interval, Quantity
from hts.base.quantities.clock import ClockPosition
from hts.base.quantities.number import read_number
from hts.job.compiler.wording import worded
from hts.language.vocabulary.declare import Field
from hts.language.vocabulary.demanded import Demanded, Every, Test, compared
from hts.language.vocabulary.formulas import Expression, FormulaText
from hts.language.vocabulary.types import (
    BY_RULE,
    Edition,
    Multiple,
    OffsetValue,
    Reference,
    Share,
    WidthValue,
)
from hts.language.vocabulary.types import Number as PlainNumber
from hts.science.tables import grades
from hts.syntax.formula import CONDITION, Formula, FormulaError, Kind, UnknownFact
from hts.syntax.formula.arithmetic import Product
from hts.syntax.formula.nodes import Literal, Name, Number, Word
from hts.syntax.formula.nodes import Node as Part

RULE = "by rule"


def canonical(value: Any, field: Field, beside_weld: bool = False) -> str:
    """The one spelling of a value of a field.

    ``beside_weld``: the width counts from the edges of the weld, so that a width on each side is
    not half of one in total.
    """
    if isinstance(value, Quantity):
        return exact(value)
    if isinstance(value, str):
        return str(read_number(value)) if isinstance(field.type, PlainNumber) else value
    if value is True:
        return "yes"
    if isinstance(value, int):
        return str(value)
    if value is BY_RULE:
        return RULE
    if isinstance(value, Reference):
        return value.name
    if isinstance(value, ClockPosition):
        return f"{value.degrees} deg"
    if isinstance(value, OffsetValue):
        return f"{exact(value.distance)} {value.side}"
    if isinstance(value, WidthValue):
        return _width(value, beside_weld)
    if isinstance(value, Interval):
        assert value.low is not None and value.high is not None
        return f"{exact(value.low)} .. {exact(value.high)}"
    if isinstance(value, Edition):
        return f"{value.book} {value.edition or 'without edition'}"
    if isinstance(value, Share):
        return exact(value.fraction)
    if isinstance(value, Demanded):
        return _demanded(value)
    if isinstance(value, Every):
        return value.words
    assert isinstance(value, FormulaText)
    wants = field.type.wants if isinstance(field.type, Expression) else CONDITION
    return formula(value.text, wants)


def spelling(value: Any) -> str:
    """A value as the text writes it."""
    if isinstance(value, str):
        return value
    if value is True:
        return "yes"
    if value is BY_RULE:
        return RULE
    if isinstance(value, FormulaText):
        return " ".join(value.text.split())
    if isinstance(value, Demanded):
        return value.text
    if isinstance(value, Share):
        return f"{value.element} {value.fraction}"
    return worded(value)


def shown(value: Any) -> str:
    """A value as written, a quantity with the other system of units in brackets."""
    return value.both() if isinstance(value, Quantity) else spelling(value)


def exact(quantity: Quantity) -> str:
    """The exact value of a quantity with its canonical unit, or its hardness scale."""
    return f"{quantity.value} {quantity.unit.scale or quantity.dimension.canonical}"


def put_to(demanded: Demanded) -> str:
    """The entries a demand is put to, in one order."""
    found = sorted(
        " ".join([target.root.__name__, *(field.name for field in target.chain)])
        for target in demanded.targets
    )
    return ("outcome of " if demanded.outcome else "") + " / ".join(found)


def _demanded(demanded: Demanded) -> str:
    """A demand by what it is put to and the exact figures of its tests, in one order."""
    several = any(test.every for test in demanded.tests)
    number = demanded.number if several else max(demanded.number, demanded.in_all)
    count = f"{number} .. {demanded.most}" if demanded.most else f"{number}"
    if several and demanded.in_all:
        count += f", {demanded.in_all} in all"
    if demanded.each_side:
        count += " each side"
    return f"{put_to(demanded)} {count}: {sorted(map(_test, demanded.tests))}"


def _test(test: Test) -> tuple[str, ...]:
    among = sorted(bound(value, test.field) for value in test.among)
    least, most = (bound(value, test.field) for value in (test.least, test.most))
    return (
        test.field.name,
        test.element,
        (" and " if test.every else " or ").join(among),
        least,
        most,
    )


def bound(value: Any, field: Field) -> str:
    """The one spelling of a value or a bound of a demand; empty where there is none."""
    if value is None or isinstance(value, Fraction):
        return str(value or "")
    if isinstance(value, FormulaText):
        return formula(value.text, compared(field) or CONDITION)
    return canonical(value, field)


@lru_cache(maxsize=4096)
def formula(text: str, wants: Kind) -> str:
    """A formula as nested lists: blanks, brackets and units make no difference."""
    try:
        return _shape(Formula.parse(text, wants).root)
    except FormulaError:  # one that was refused when it was read
        return " ".join(text.split())


@lru_cache(maxsize=4096)
def constant(text: str, wants: Kind) -> str | None:
    """The canonical text of a formula that is one quantity or number; None for any other."""
    try:
        root = Formula.parse(text, wants).root
    except FormulaError:
        return None
    return _shape(root) if isinstance(root, Literal | Number) else None


def value_of(text: str, wants: Kind) -> str:
    """The exact value of a formula that hangs on no fact, as `exact` has it; else empty."""
    try:
        value = Formula.parse(text, wants).evaluate({})
    except (FormulaError, UnknownFact):
        return ""
    return exact(value) if isinstance(value, Quantity) else str(value)


def _width(value: WidthValue, beside_weld: bool) -> str:
    each = "each side" if value.each_side else "total"
    if isinstance(value.amount, Multiple):
        number, unit = read_number(value.amount.factor), "t"
    else:
        number, unit = value.amount.value, value.amount.dimension.canonical
    if value.each_side and not beside_weld:
        number, each = number * 2, "total"
    return f"{number} {unit} {each}"


def _shape(part: Part) -> str:
    if isinstance(part, Literal):
        return f"{part.quantity.base_value} {part.quantity.dimension.name}"
    if isinstance(part, Number):
        # Beside a word a number stands for itself: group 10 is not group 1e1.
        return part.written
    if isinstance(part, Word):
        return part.word
    name = "Product" if isinstance(part, Product) else type(part).__name__
    own = [_own(getattr(part, slot)) for slot in type(part).__slots__]
    if isinstance(part, Product):
        own = [str(part.sign)]
    inner = [_shape(child) for child in part.parts]
    if part.parts and isinstance(part.parts[0], Name) and part.parts[0].word == "grade":
        # Grades are compared by the name the table gives them.
        words = [*part.parts[1:], *getattr(part, "choices", ())]
        inner = ["grade", *(grades.canonical(w.word) for w in words if isinstance(w, Word))]
        own = [text for text in own if not text.startswith("[")]
    return f"({' '.join([name, *own, *inner])})"


def _own(value: object) -> str:
    if isinstance(value, tuple | list):
        return "[" + " ".join(_own(one) for one in value) + "]"
    return _shape(value) if isinstance(value, Part) else str(value)
