"""From the text of a formula to its tree."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import Any

from hts.base.quantities import RATE, TIME
from hts.syntax.formula.arithmetic import Multiple, Negative, Power, Product, Sum
from hts.syntax.formula.conditions import Compare, Joined, Known, Member, Negation
from hts.syntax.formula.errors import FormulaError
from hts.syntax.formula.functions import Call
from hts.syntax.formula.nodes import Literal, Name, Node, Number, Word
from hts.syntax.lalr import END, Machine, Tables, Token, parse

_NUMBERS = ("NUMBER", "QUANTITY", "MULTIPLE")


def tree(text: str) -> Node:
    """The tree of a formula. Raises FormulaError at the first thing that does not fit."""
    tables = _tables()
    tokens = list(tables.tokens(text))
    for before, token in pairwise(tokens):
        if before.text == "/" and token.kind in _NUMBERS and _has_fraction(token.text):
            raise FormulaError(
                token.start,
                token.end,
                f"dividing by {token.text} can be read in two ways",
                f"write ({token.text})",
            )
    for whole, minus, part in zip(tokens, tokens[1:], tokens[2:], strict=False):
        if (
            minus.text == "-"
            and whole.text.isdigit()
            and whole.end == minus.start
            and minus.end == part.start
            and _has_fraction(part.text)
        ):
            written = f"{whole.text} {part.text}"
            raise FormulaError(
                whole.start,
                part.end,
                f"{whole.text}-{part.text} can be read as a subtraction",
                f"write {written}, with a blank between whole number and fraction",
            )
    root: Node = parse(tables, tokens, len(text), _refuse)
    return root


def _has_fraction(text: str) -> bool:
    number = text.lstrip("0123456789. \t")
    return number.startswith("/") and number[1:2].isdigit()


def _refuse(machine: Machine, token: Token) -> bool:
    if token.kind == END:
        where = token.start
        message = "a formula is needed" if not where else "the formula stops in the middle"
        raise FormulaError(max(where - 1, 0), where, message, "such as: 2.5 min/mm * t")
    if token.kind == "ILLEGAL":
        raise FormulaError(token.start, token.end, f"{token.text!r} has no meaning in a formula")
    help = ""
    if token.kind == "RELATION":
        help = "join comparisons with and: 5 mm < t and t < 20 mm"
    elif token.kind in ("NAME", "QUANTITY", "NUMBER", "FUNCTION", "LPAR"):
        help = "a sign such as *, + or and is missing before it"
        if token.kind == "NAME":
            help += '; a name of several words is quoted ("A335 P22") or hyphened (feed-water)'
    raise FormulaError(token.start, token.end, f"{token.text!r} does not fit here", help)


@lru_cache(maxsize=1)
def _tables() -> Tables:
    return Tables("formula", _ACTIONS)


def _negate(children: list[Any]) -> Node:
    minus, operand = children
    if isinstance(operand, Literal) and operand.start >= minus.end:
        return operand.negated(minus.start)
    return Negative(minus.start, operand.end, operand)


def _group(children: list[Any]) -> Node:
    opening, node, closing = children
    grouped: Node = node
    grouped.start, grouped.end = opening.start, closing.end
    return grouped


def _quoted(token: Token) -> Word:
    return Word(token.start, token.end, token.text[1:-1])


def _choice(children: list[Any]) -> Word | Number:
    token: Token = children[0]
    if token.kind == "NUMBER":
        return Number(token.start, token.text)
    return _quoted(token) if token.kind == "TEXT" else Word(token.start, token.end, token.text)


def _per_length(children: list[Any]) -> Node:
    """`1 h per in of t` is a time for each inch; `400 degF/h per in of t` a rate that each inch
    makes slower, as codes divide it by the thickness."""
    amount, per, length = children
    dimension = amount.quantity.dimension if isinstance(amount, Literal) else None
    if dimension not in (TIME, RATE):
        raise FormulaError(
            per.start,
            per.end,
            f"{per.text!r} stands behind a time or a rate",
            "such as 1 h per in of t, 400 degF/h per in of t",
        )
    words = per.text.split()[1:-1]
    step = Literal(per.start, per.end, " ".join(words if len(words) > 1 else ["1", *words]))
    if dimension is TIME:
        return Product(Product(amount, length, 1), step, -1)
    return Product(Product(amount, step, 1), length, -1)


_ACTIONS = {
    "start": lambda c: c[0],
    "any_of": lambda c: Joined(c[0], c[1], True),
    "all_of": lambda c: Joined(c[0], c[1], False),
    "negation": lambda c: Negation(c[0].start, c[1].end, c[1]),
    "compare": lambda c: Compare(c[0], c[1].text, c[2]),
    "member": lambda c: Member(c[0], c[1], c[2].end),
    "known": lambda c: Known(c[0], c[1].end),
    "choices": lambda c: _flat(c),
    "choice": _choice,
    "add": lambda c: Sum(c[0], c[1], 1),
    "subtract": lambda c: Sum(c[0], c[2], -1),
    "multiply": lambda c: Product(c[0], c[1], 1),
    "divide": lambda c: Product(c[0], c[1], -1),
    "per_length": _per_length,
    "negate": _negate,
    "power": lambda c: Power(c[0], Number(c[1].start, c[1].text)),
    "quantity": lambda c: Literal(c[0].start, c[0].end, c[0].text),
    "number": lambda c: Number(c[0].start, c[0].text),
    "text": lambda c: _quoted(c[0]),
    "name": lambda c: Name(c[0].start, c[0].text),
    "multiple": lambda c: Multiple(c[0].start, c[0].text),
    "call": lambda c: Call(c[0].start, c[0].text, c[1], c[2].end),
    "group": _group,
    "arguments": lambda c: _flat(c),
}


def _flat(children: list[Any]) -> list[Any]:
    """The items of a list, whose rest the tables keep in a list of its own."""
    first, *rest = children
    return [first, *(rest[0] if rest and isinstance(rest[0], list) else rest)]
