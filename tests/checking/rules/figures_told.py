"""The figures a message holds, and which of them an example asks for."""

from __future__ import annotations

import re
from collections import Counter
from datetime import date

from hts.checking.rules.rule import Edge

#: A figure: a date, a clock position or a number that is no part of a name.
_FIGURE = re.compile(
    r"(?<![\w.:/-])(?:\d{4}-\d\d-\d\d|\d{1,2}:\d\d|\d[\d.]*(?:/\d+)?)"
    r"(?!\w|-\w|/\d)(?: ?%| (?=[A-Za-z])[A-Za-z][\w/*]*)?"
)
#: Names that hold numbers: standards with their paragraphs, and what is numbered.
_NAMED = re.compile(
    r"\b(?:but .*? (?=asks|allows|gives|measures|comes|prohibits|foresees)"
    r"|(?:AWS|ASME|EN|ISO|IEC|ASTM|WRC) [^;:,]*?\)(?=[ ,;:])"
    r"|(?:IEC|ASTM|EN|ISO|NPS|class|edition|revision|schedule|gauge|circuit|channel|point|zone"
    r"|Tables?|Part|P-number) \w[\w./-]*(?: and \d[\d.]*)?|[A-Z]+\d[\w.]*|P-\d+A?)"
)
_DIMENSIONS = {
    unit: dimension
    for dimension, units in {
        "length": "mm in m ft",
        "temperature": "degC degF K",
        "rate": "degC/h degF/h K/h",
        "time": "min h s d months",
        "power": "kW W kVA",
        "hardness": "HV HBW HV10",
    }.items()
    for unit in units.split()
}


def untold(message: str, says: str) -> list[str]:
    """The figures of a message that the example does not ask for.

    Raises AssertionError where the message does not hold what the example says, in its order.
    """
    left, at = [], 0
    for part in says.split("…") if says else ():
        found = re.compile(rf"(?<![\w.]){re.escape(part.strip())}(?!\w|\.\d)").search(message, at)
        assert found, f"{message!r} does not say {part.strip()!r}"
        left.append(message[at : found.start()])
        at = found.end()
    return [figure for text in (*left, message[at:]) for figure in figures(text)]


def figures(message: str) -> list[str]:
    """Every figure of a message with its unit, without numbers that are part of a name."""
    return [match.group() for match in _FIGURE.finditer(_NAMED.sub("", message))]


def form(message: str) -> str:
    """The message with its figures left out: the same for whatever values it is told of."""
    bare = re.sub(r"\bbut .*? (asks|allows|gives|measures|comes)\b", r"but … \1", message)
    return re.sub(r"\d+(?:[.:/-]\d+)*", "#", re.sub(r" \([^()]*\)", "", bare))


def compares(message: str) -> bool:
    """Whether it sets one figure beside another of the same dimension."""
    bare = re.sub(r" \([^()]*\)", "", message)
    kinds = Counter(_dimension(figure) for figure in figures(bare))
    return any(count > 1 for count in kinds.values())


def steps_apart(edge: Edge) -> float:
    """How many steps of the last digit written lie between the two values of an edge: days of a
    date, minutes of a clock position.

    Raises AssertionError where a step is more than a tenth of a value that has a unit.
    """
    kept, broken = (re.fullmatch(r"([\d.:-]+)(.*)", one) for one in (edge.keeps, edge.breaks))
    assert kept and broken, f"{edge.keeps!r} and {edge.breaks!r} are no figures"
    assert kept[2] == broken[2], f"{edge.keeps!r} and {edge.breaks!r} have two units"
    one, other = kept[1], broken[1]
    if "-" in one:
        return abs(date.fromisoformat(one) - date.fromisoformat(other)).days
    if ":" in one:
        first, second = (int(h) * 60 + int(m) for h, m in (one.split(":"), other.split(":")))
        return abs(first - second)
    decimals = max(len(value.partition(".")[2]) for value in (one, other))
    step = 10.0**-decimals
    assert not kept[2] or step <= float(one) / 10, f"{edge.breaks}: too coarse"
    return round(abs(float(one) - float(other)) / step, 3)


def _dimension(figure: str) -> str:
    if "-" in figure or ":" in figure:
        return "date" if "-" in figure else "clock"
    unit = re.sub(r"^[\d./]+ ?", "", figure)
    return _DIMENSIONS.get(unit, unit)
