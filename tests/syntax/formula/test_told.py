"""Formulas with their kinds, values and all that is told of them, word for word: what is added,
multiplied and compared with what, for every two kinds there are."""

from __future__ import annotations

import itertools
import re
from fractions import Fraction
from pathlib import Path

from hts.base.quantities import (
    COUNT,
    DIFFERENCE,
    HARDNESS,
    LENGTH,
    MASS_FRACTION,
    RATE,
    RATIO,
    TEMPERATURE,
    TIME,
    Quantity,
)  # fmt: skip
from hts.syntax.formula import (
    CONDITION,
    Fact,
    Formula,
    FormulaError,
    Kind,
    Text,
    UnknownFact,
    Words,
)
from tests.told import each_once

TOLD = Path(__file__).with_name("told") / "formulas.txt"

MANY = tuple(f"{letter}{n}" for letter in "abc" for n in range(7))
KINDS: dict[str, Kind] = {
    "t": LENGTH, "hold": TIME, "hot": TEMPERATURE, "step": DIFFERENCE, "rate": RATE, "n": COUNT,
    "carbon": MASS_FRACTION, "share": RATIO, "hard": HARDNESS, "group": Text("1", "5A"),
    "service": Text(), "one": Text(*MANY), "few": Text(*MANY[:20]), "absent": LENGTH,
}  # fmt: skip
FACTS: dict[str, Fact] = {
    "t": Quantity.read("1 in", LENGTH), "hold": Quantity.read("2 h 30 min", TIME),
    "hot": Quantity.read("705 degC", TEMPERATURE), "step": Quantity.read("25 degF", DIFFERENCE),
    "rate": Quantity.read("200 degC/h", RATE), "n": 3, "carbon": Quantity.read("0.2 %",
    MASS_FRACTION),
    "share": Quantity.read("10 %", RATIO), "hard": Quantity.read("241 HBW",
    HARDNESS), "group": "5A",
    "service": Words(("steam", "sour")), "one": "a3", "few": "b2",
}  # fmt: skip
TERMS = ["t", "hold", "hot", "step", "rate", "n", "carbon", "share", "hard", "group", "30 degC",
    "5 mm",
         "2", "2 K", "0.5 %", "t > 2 mm", '"5A"']  # fmt: skip
SINGLE = [
    "", "t", "absent", "absent * t + absent", "-t", "-hot", "-30 degC", "- 30 degC", "-(30 degC)",
    "-n", "not t > 2 mm", "not t", "t and n", "t > 2 mm and n", "t > 2 mm or absent > 2 mm",
    "absent > 2 mm or t > 2 mm", "absent > 2 mm and t > 1 m", "absent > 2 mm and t > 2 mm",
    "absent is known", "t is known", "t + 1 is known", "unheard is known", "1 is known",
    "abs(t)", "abs(-2 mm)", "abs(hot)", "abs(step, t)", "sqrt(t)", "sqrt(t * t)", "sqrt(t^4)",
    "sqrt(2)", "sqrt(4)", "sqrt(hot)", "sqrt(-n)", "sqrt(t * t * n)", "sqrt(carbon)", "sqrt(n, n)",
    "max(t, 5 mm)", "min(t, 5 mm)", "max(hot, 30 degC)", "min(hot, 30 degC, 700 degC)", "max(t)",
    "max(t, hold)", "max(t, t, hold)", "round_up(t, 5 mm)", "round_down(t, 5 mm)",
    "round_to(t, 5 mm)", "round_to(27.5 mm, 5 mm)", "round_to(-27.5 mm, 5 mm)",
    "round_up(-t, 5 mm)",
    "round_down(-t, 5 mm)", "round_up(25 mm, 5 mm)", "round_up(t, 0 mm)", "round_up(t, -1 mm)",
    "round_up(hot, 5 K)", "round_up(t)", "cosh(t)", "t^1", "t^2", "t^3", "t^4", "t^5", "t^0",
    "t^1.5",
    "hot^2", "n^2", "share^1", "share^2", "carbon^2", "(t)^2", "t / 0", "t / (n - 3)", "1/0",
    "n / t",
    "1 h per in of t", "1 h/in * t", "1 h per 2 in of t", "400 degF/h per in of t", "n per in of t",
    "400 degF/h per 1/2 in of t", "2 mm per in of t", "2.5 min/mm * t", "5 t", "1.5 t", "5 t + t",
    "200 degC/h / t", "t * t", "t * t * t", "hold * t", "t * t / hold", "n / hold / t", "1 / t^2",
    "group = 5A", "group = 5B", 'group = "5A"', "group = 1", "group = 2", "group = t",
    "group = (t)",
    "group in (1, 5A)", "group in (1, 2)", "group in (1)", "group != 1", "group < 1",
    "n in (1, 2, 3)",
    "n in (4, 5)", "t in (1, 2)", "t in (a, b)", "n in (a)", "service = steam", "service = water",
    "service != steam", "service != water", "service in (water, sour)", "service in (water)",
    "one = b9", "one = d1", "one = a1", "few = b9", "carbon > 0.3", "share > 0.3",
    "carbon > 30 ppm",
    "t > 0.3", "n > 2 mm", "hot > 1300 degF", "hot > 30 K", "step > 30 degC", "rate > 200 K/h",
    "5 mm < t", "5 mm < t < 8 mm", "t = 1 in", "t != 1 in", "t <= 1 in", "t >= 1 in", "t < 1 in",
    "hot-step", "2mm + t", "mm", "3 * mm", "5A + t", "5A", "unheard", "carbn", "t +", "t + + t",
    ")",
    "(t", "t t", "t 5 mm", "t 5", "t max(t, t)", "t (t)", "t ? 2", "A335 P22", "t, t", "in", "t in",
    "t in ()", "2e3", "1,5 mm", "1/2 in", "1 1/2 in", "t / 1/2", "t / 1/2 in", "t / (1/2 in)",
    "5 xx",
    "2 h 30 min + hold", "2 h 30", "5 mm 5", "t * -2", "t - -2 mm", "t -2", "-t^2", "n - 1 - 1",
    "n / 2 / 2", "n - (1 - 1)", "2 * n + 1", "2 + n * 2", "sqrt(n) * -1",
]  # fmt: skip


def told(text: str, wants: Kind | None = None, called: str = "this") -> str:
    try:
        formula = Formula.parse(text, wants)
        kind = formula.check(KINDS, called)
        found = f"{text} => {kind.with_article}"
        if formula.names or formula.literals:
            found += f", {formula.names} {formula.shown(FACTS)} {formula.compared}"
        try:
            value = formula.evaluate(FACTS)
            held = "" if formula.holds(FACTS) is (value is True) else "!"
            return f"{found}: {value!s} {formula.number(FACTS)}{held}"
        except UnknownFact as unknown:
            return f"{found}: wanted {unknown.names}"
        except FormulaError as error:
            return f"{found}: <{text[error.start : error.end]}> {error}"
    except FormulaError as error:
        return f"{text} => <{text[error.start : error.end]}> {error}"


#: What stands in for the words of one formula, so that messages and results are one of a kind.
_OF_ONE = re.compile(
    r"<[^>]*>|'[^']*'|\(.*\)|: .*"
    r"|\b(?:a |an )?(?:length|time|temperature|temperature difference|rate|number|mass fraction"
    r"|ratio|hardness|condition|word|area)\b(?! cannot be added)|\d[\d./]*"
)


def outcome(line: str) -> str:
    """What a formula comes to, whichever it is."""
    _, _, told = line.partition(" => ")
    for term in sorted(TERMS, key=len, reverse=True):
        told = re.sub(rf"(?<![\w.]){re.escape(term)}(?!\w)", "#", told)
    return _OF_ONE.sub("#", told)


def pairs(sign: str) -> str:
    """Every two kinds of value with a sign between them."""
    return "\n".join(told(f"{a} {sign} {b}") for a, b in itertools.product(TERMS, TERMS))


def wanted() -> str:
    """What a formula is for, and what it may then come to."""
    kinds: list[Kind] = [
        DIFFERENCE, TEMPERATURE, LENGTH, RATIO, MASS_FRACTION, COUNT, CONDITION, Text(),
    ]  # fmt: skip
    texts = ["30 degC", "max(30 degC, 20 degC)", "-(30 degC)", "hot", "hot - 30 degC", "10 %",
             "t", "n", "t * t", "t > 2 mm", "group", "2 * (30 degC)"]  # fmt: skip
    return "\n".join(told(text, kind, "hold") for kind in kinds for text in texts)


def test_what_is_told() -> None:
    texts = {"single": "\n".join(map(told, SINGLE)), "wanted": wanted()}
    texts |= {f"pairs {sign}": pairs(sign) for sign in ("+", "-", "*", "/", "<", "=")}
    each_once(TOLD, texts, outcome, by_text=True)


def test_limits_of_size() -> None:
    assert Formula.parse("t" * 500).text == "t" * 500
    long = {"n": 2 ** (4096 - 1)}
    power = Formula.parse("n^2")
    assert power.evaluate({"n": 2**4094}) == 2**8188
    for number in (long["n"] * 2, 2**4096):
        try:
            power.evaluate({"n": number})
        except FormulaError as error:
            assert str(error) == "this number is too long"
        else:
            raise AssertionError(number.bit_length())
    assert Formula.parse("sqrt(n)").evaluate({"n": Fraction(4, 9)}) == Fraction(2, 3)
    twenty = ", ".join(["t"] * 20)
    assert Formula.parse(f"max({twenty})").check(KINDS) is LENGTH
    assert told(f"max({twenty}, t)").endswith("max takes 2 to 20 values, not 21")
    assert repr(power) == "<Formula n^2>"
