"""What must hold for every text that is laid out."""

from __future__ import annotations

import re
from random import Random

from hts.base.findings import Report
from hts.base.text import Source
from hts.language.layout import settled
from hts.language.layout.layout_errors import LAYOUT_GUARD
from tests.fuzz.texts import damaged, grammar_text
from tests.language.layout.texts import disarranged, fragments

_WHITE = re.compile(r"\s+")
#: The spellings the language reference allows for one another.
_RESPELLED = (("°C", "degC"), ("°F", "degF"), ("±", "+/-"), ("…", ".."))


class Broken(AssertionError):
    """Something that must hold for every text did not."""


def text_of(seed: int, number: int, good: list[str]) -> str:
    """Text of a trial: the same numbers give the same text."""
    random = Random(f"{seed}/{number}")
    kind = random.choice(("good", "good", "grammar", "grammar", "fragments"))
    if kind == "fragments":
        return fragments(random)
    text = grammar_text(random, 12) if kind == "grammar" else random.choice(good)
    if random.random() < 0.4:
        text = damaged(random, text)
    if random.random() < 0.7:
        text = disarranged(random, text)
    # What is read from a file has gone through UTF-8, which has no halves of pairs.
    return text.encode("utf-8", "replace").decode("utf-8")


def try_text(text: str) -> str | None:
    """The text laid out, None where its form has errors. Raises Broken where something is wrong.

    The comparison knows nothing of tokens: without white space, both texts are the same characters.
    """
    report = Report()
    after = settled(Source(text, "text.hts"), report)
    kinds = {finding.kind for finding in report.findings}
    if LAYOUT_GUARD in kinds:
        raise Broken(report.findings[0].message)
    if after is None:
        if not report.findings:
            raise Broken("left alone without a finding")
        return None
    if _without_white(text) != _without_white(after):
        raise Broken("more than white space has changed")
    if settled(Source(after, "text.hts"), Report()) != after:
        raise Broken("a second pass changes the text")
    lines = after.replace("\r\n", "\n").split("\n")
    if after and (lines.pop() != "" or not lines[0] or not lines[-1]):
        raise Broken("the text does not begin and end with a line")
    if any(line != line.rstrip(" \t") for line in lines):
        raise Broken("blanks at the end of a line")
    for before, line, next_line in zip(lines, lines[1:], lines[2:], strict=False):
        if not line and (not before or before.endswith("{") or next_line.strip() == "}"):
            raise Broken("a blank line too many")
    return after


def _without_white(text: str) -> str:
    text = _WHITE.sub("", text)
    for one, other in _RESPELLED:
        text = text.replace(one, other)
    return text
