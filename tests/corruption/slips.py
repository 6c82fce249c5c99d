"""Single-fact corruptions of a good specification, of the kinds people make.

Each kind finds the places it can spoil and says how the line then reads. Sizes are chosen so that
what was right is wrong afterwards whatever the limits of the joint are (a hold cut to a quarter, a
rate five times as fast); a corruption that leaves a correct text proves nothing.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import NamedTuple


class Corruption(NamedTuple):
    """``line`` (from 0) is replaced by ``new``; None removes it."""

    kind: str
    line: int
    new: str | None


Change = Callable[[re.Match[str]], str]


def _number(text: str, factor: Fraction) -> str:
    value = Fraction(text) * factor
    return f"{float(value):g}"


def _scaled(group: int, factor: Fraction) -> Change:
    def change(found: re.Match[str]) -> str:
        start, end = found.span(group)
        whole = found.string
        return whole[:start] + _number(found[group], factor) + whole[end:]

    return change


def _shifted(group: int, by: int) -> Change:
    def change(found: re.Match[str]) -> str:
        start, end = found.span(group)
        return found.string[:start] + str(int(found[group]) + by) + found.string[end:]

    return change


def _as(group: int, new: str) -> Change:
    def change(found: re.Match[str]) -> str:
        start, end = found.span(group)
        return found.string[:start] + new + found.string[end:]

    return change


def _reversed_range(found: re.Match[str]) -> str:
    low, high = found.span(1), found.span(2)
    text = found.string
    return text[: low[0]] + found[2] + text[low[1] : high[0]] + found[1] + text[high[1] :]


def _opposite(found: re.Match[str]) -> str:
    hour = (int(found[1]) + 5) % 12 + 1
    start, end = found.span(1)
    return found.string[:start] + str(hour) + found.string[end:]


def _later(found: re.Match[str]) -> str:
    hour = int(found[1]) % 12 + 1
    start, end = found.span(1)
    return found.string[:start] + str(hour) + found.string[end:]


def _range_up(by: int) -> Change:
    def change(found: re.Match[str]) -> str:
        low, high = int(found[1]) + by, int(found[2]) + by
        text = found.string
        a, b = found.span(1), found.span(2)
        return text[: a[0]] + str(low) + text[a[1] : b[0]] + str(high) + text[b[1] :]

    return change


_DROP = None
_TC = r"^\s+\w+\s+"

#: Kind, pattern of a line it can spoil, and the new line (None: the line is left out).
KINDS: tuple[tuple[str, str, Change | None], ...] = (
    ("unit of a temperature swapped", r"^\s+(?:hold|heat|cool|at least|interpass).*?\d (degC)\b(?!/)", _as(1, "degF")),
    ("unit of a temperature left out", r"^\s+(?:heat|cool|interpass|start of control|end of control).*?\d( deg[CF])\b(?!/)", _as(1, "")),
    ("unit of a length left out", r"^\s+(?:wall|cap width|soak band).*?\d( mm| in)\b", _as(1, "")),
    ("rate written as a temperature", r"^\s+(?:heat|cool).*at most \d+ deg[CF](/h)", _as(1, "")),
    ("decimal comma", r"\d(\.)\d+ (?:mm|%|h)\b", _as(1, ",")),
    ("width without side or total", r"^\s+(?:soak|heated|gradient) band.*( total| each side)", _as(1, "")),
    ("range reversed", r"^\s+hold (\d+) \.\. (\d+)", _reversed_range),
    ("one-sided tolerance", r"^\s+hold \d+( \.\. )\d+", _as(1, " + ")),
    ("spare left out", _TC + r"spare for .*", _DROP),
    ("spare elsewhere", _TC + r"spare for .*at (\d+):", _opposite),
    ("monitor made to control", _TC + r"(monitors soak edge) ", _as(1, "controls nowhere")),
    ("control made to monitor", _TC + r"(controls \w+) ", _as(1, "monitors weld")),
    ("control moved round the pipe", _TC + r"controls .*at (\d+):", _opposite),
    ("control moved off the weld", _TC + r"controls .*(on weld)", _as(1, "900 mm downstream")),
    ("edge monitor moved to the weld", _TC + r"monitors (?:soak|heated) edge.* (\d+(?:\.\d+)?) (?:mm|in)\b", _scaled(1, Fraction(1, 10))),
    ("monitors of the soak edge left out", _TC + r"monitors soak edge.*", _DROP),
    ("recorder channel used twice", _TC + r"(?:controls|monitors).*[^l] channel ([2-9])\b", _as(1, "1")),
    ("recorder channel out of range", _TC + r"(?:controls|monitors).*[^l] channel (\d+)", _as(1, "99")),
    ("control channel out of range", r"control channel (\d+)", _as(1, "77")),
    ("control channel used twice", r"control channel ([2-9])\b", _as(1, "1")),
    ("clock position left out", _TC + r"(?:controls|monitors)[a-z ]*?( at \d+:\d\d)", _as(1, "")),
    ("band far too narrow", r"^\s+(?:soak|heated|gradient) band\s+(\d+(?:\.\d+)?) ", _scaled(1, Fraction(1, 4))),
    ("zone begins an hour late", r"^\s+zone \w+ .*from (\d+):", _later),
    ("zone ends an hour late", r"^\s+zone \w+ .*\bto (\d+):", _later),
    ("zone left out", r"^\s+zone (?!.*all round).*", _DROP),
    ("hold cut to a quarter", r"^\s+hold .*for (\d+(?:\.\d+)?) (?:h|min)\b", _scaled(1, Fraction(1, 4))),
    ("rate five times as fast", r"^\s+(?:heat|cool).*at most (\d+) deg[CF]/h", _scaled(1, Fraction(5))),
    ("hold range over the lower critical", r"^\s+hold (\d+) \.\. (\d+) degC", _range_up(150)),
    ("hold range far too low", r"^\s+hold (\d+) \.\. (\d+) degC", _range_up(-200)),
    ("heating past the hold", r"^\s+heat to (\d{3}) degC\s+at most", _shifted(1, 120)),
    ("start of control left out", r"^\s+start of control.*", _DROP),
    ("end of control left out", r"^\s+end of control.*", _DROP),
    ("hold left out", r"^\s+hold .*\.\..*", _DROP),
    ("edition left out", r"^\s+governed by.*( edition \d+)", _as(1, "")),
    ("book misspelt", r"^\s+governed by\s+(asme)", _as(1, "amse")),
    ("procedure misspelt", r"^\s+follows\s+P-0(\d)", _as(1, "9")),
    ("cap width left out", r"^\s+cap width.*", _DROP),
    ("preheat far too low", r"^\s+at least\s+(\d{3}) deg[CF]", _scaled(1, Fraction(1, 5))),
    ("interpass below preheat", r"^\s+interpass\s+at most (\d{3}) deg[CF]", _scaled(1, Fraction(1, 8))),
    ("interpass left out", r"^\s+interpass.*", _DROP),
    ("extension of another type", r"^\s+extension\s+(KX|NX)", _as(1, "JX")),
    ("thermocouple of another type", r"thermocouples type ([KN])", _as(1, "J")),
    ("legs too far apart", r"legs apart (\d+(?:\.\d+)?) mm", _as(1, "30")),
    ("mechanical attachment", r"attached\s+(capacitor discharge)", _as(1, "mechanical")),
    ("view left out", r"^\s+viewed\s.*", _DROP),
    ("axis misspelt", r"^\s+axis\s+horizont(a)l", _as(1, "e")),
    ("schedule that does not exist", r"schedule (\w+)", _as(1, "41")),
    ("wall of another pipe", r"^\s+wall\s+(\d+(?:\.\d+)?) mm", _scaled(1, Fraction(6))),
    ("material misspelt", r"^\s+between\s+\w[\w-]+() and", _as(1, "x")),
    ("joint misspelt", r"^(?:cycle .* for|preheat|bake) [A-Z]+\d*()", _as(1, "9")),
    ("recorder misspelt", r"recorded by\s+R(\d)", _as(1, "8")),
    ("controller misspelt", r"controlled by\s+C(\d)", _as(1, "8")),
    ("zone name misspelt", _TC + r"controls \w+?(\w)\s", _as(1, "zz")),
    ("current revision not in the history", r"^\s+revision\s+([A-Z]) on", _as(1, "Q")),
    ("sign-off left out", r"^\s+approved\s.*", _DROP),
    ("ends left open", r"^\s+ends\s+(closed.*|plugged)", _as(1, "open")),
    ("bore filled", r"^\s+bore\s+(drained and dry)", _as(1, "filled")),
    ("qualified hold too short", r"qualified.*hold (\d+) h", _as(1, "0.2")),
    ("qualified without treatment", r"condition (below lower critical)", _as(1, "without heat treatment")),
    ("insulation left out", r"^\s+insulation\s.*mm\b(?:(?!,$).)*$", _DROP),
    ("unit of a distance left out", r"at \d+:\d\d,\s+\d+(?:\.\d+)?( mm| in| ft)\b", _as(1, "")),
    ("side of a distance left out", r"at \d+:\d\d,.*( upstream| downstream)", _as(1, "")),
    ("width beside the weld a quarter", r"^\s+width\s+(\d+) (?:mm|in) each", _scaled(1, Fraction(1, 4))),
    ("width beside the weld without side", r"^\s+width .*( each side)", _as(1, "")),
    ("legs too far apart, inches", r"legs apart (1/4) in", _as(1, "2")),
    ("wall of another pipe, inches", r"^\s+wall\s+(\d+\.\d+) in", _scaled(1, Fraction(6))),
    ("heating rate without its time", r"^\s+heating rate at most \d+ deg[CF](/h)", _as(1, "")),
    ("tag used twice", r"^\s+[A-Z](2)\s+(?:monitors|controls)", _as(1, "1")),
    ("day that is none", r" on 20\d\d-(\d\d)-\d\d", _as(1, "13")),
    ("choice misspelt", r"^\s+(?:made in|viewed|datum|method|attached|expansion|keep until)\s+(\w)", _as(1, "xq")),
    ("quote left out", r'"[^"]*(")\s*$', _as(1, "")),
    ("brace left out", r"^\s*(?:joint|heating|cycle|preheat).*( \{)$", _as(1, "")),
    ("word misspelt", r"^\s+(?:cap wid(t)h|heated ban(d)|rate marg(i)n)", lambda m: m.string.replace("width", "wdith").replace("band", "bnad").replace("margin", "magrin")),
)  # fmt: skip


#: Of one kind no more than this many count for one text, or the quotes alone would make the share.
MOST = 6


def corruptions(text: str) -> Iterator[Corruption]:
    """Every corruption of a text, kind by kind."""
    lines = text.split("\n")
    for kind, pattern, change in KINDS:
        expression = re.compile(pattern)
        made = 0
        for number, line in enumerate(lines):
            if line.lstrip().startswith("#"):
                continue
            found = expression.search(line)
            if found is None:
                continue
            new = None if change is None else change(found)
            if new != line and made < MOST:
                made += 1
                yield Corruption(kind, number, new)


def applied(text: str, corruption: Corruption) -> str:
    """The text with one fact spoiled."""
    lines = text.split("\n")
    if corruption.new is None:
        del lines[corruption.line]
    else:
        lines[corruption.line] = corruption.new
    return "\n".join(lines)
