"""Fixes that write other words or another figure where the help of a finding names them.

Several may be proposed where it is not plain how much of the text the right form stands for; what
is read wrongly afterwards is left out by `hts.checking.fixes`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import OFFERED, Edit, Finding, Fix
from hts.limits import UnknownEdition, book

_MEANT = re.compile(r"did you mean (?:'([^']+)'|`([^`]+)`|([^\s?]+(?: [^\s?]+)?))\?")
_IN_PLACE = re.compile(r"write `([^`]+)` in place of `([^`]+)`")
_DATES = re.compile(r"\d{4}-\d\d-\d\d")
_WRITTEN_DATE = re.compile(r"\d{1,2}\.?[ -][A-Za-z]{3,9}\.?,?[ -]\d{4}|\d[\d./-]*\d")
_BOOK = re.compile(r"write ([a-z][\w.-]+(?: edition \S+)?)$")
_CLOCK = re.compile(r"write the place on the clock (?:as|with its minutes:) (\d{1,2}:\d\d)$")
_RANGE = re.compile(r"write the range as (.+)$")
_SIGN = re.compile(r"write (\S+) in its place$")
_BOUND = re.compile(r"make it ([^(]+?)(?: \([^)]*\))? or (more|less)$")
_AMOUNT = re.compile(r"-?\d+(?:\.\d+)?(?:[ \t]+\d+/\d+|/\d+)?(?:[ \t]*[^\s\d,][^\s,]*)?")


def meant(finding: Finding) -> Iterator[Fix]:
    """The word or value that was meant."""
    found = _MEANT.search(finding.help)
    if found is None:
        return
    right = next(group for group in found.groups() if group)
    span = finding.at.span
    for start, end in _wrong(finding):
        yield _write(right, span.start + start, span.start + end)


def _wrong(finding: Finding) -> Iterator[tuple[int, int]]:
    """What may be meant to be replaced: what the message quotes, all of it, its first words."""
    text = finding.at.span.text
    quoted = re.match(r"(?:no [\w ]+ is named |there is no \w+ )?'([^']+)'", finding.message)
    if quoted is not None and quoted[1] in text:
        at = text.index(quoted[1])
        yield at, at + len(quoted[1])
    yield 0, len(text)
    for words in (1, 2):
        begun = re.match(rf"\S+(?:[ \t]+\S+){{{words - 1}}}", text)
        if begun is not None:
            yield 0, begun.end()


def in_place_of(finding: Finding) -> Iterator[Fix]:
    """The language's own words for short ones."""
    found = _IN_PLACE.search(finding.help)
    if found is None:
        return
    right, wrong = found.groups()
    source, start = finding.source, finding.at.span.start
    at = source.text.find(wrong, start, start + 200)
    if at >= 0:
        yield _write(right, at, at + len(wrong))


def other_form(finding: Finding) -> Iterator[Fix]:
    """Dates, clock positions, ranges, books and signs in the form of the language."""
    source, span = finding.source, finding.at.span
    rest = source.line(source.position(span.start)[0])[source.column(span.start) - 1 :]
    if "date" in finding.help:
        written = _WRITTEN_DATE.match(rest)
        for day in dict.fromkeys(_DATES.findall(finding.help)) if written else ():
            yield _write(day, span.start, span.start + written.end())  # type: ignore[union-attr]
    for pattern in (_CLOCK, _BOOK, _RANGE):
        found = pattern.search(finding.help)
        if found is None:
            continue
        for right in _editions(found[1]) if pattern is _BOOK else (found[1],):
            yield _write(right, span.start, span.end)
        until = re.match(r"[\d.]+\s*(?:\S+\s+)?(?:to|and|through)\s+[\d.]+\s*\S*", rest)
        if pattern is _RANGE and until is not None:
            yield _write(found[1], span.start, span.start + until.end())
        if pattern is _CLOCK:
            hour = re.match(r"\d{1,2}(?:\s*o?\s*.\s*clock)?", rest)
            if hour is not None:
                yield _write(found[1], span.start, span.start + hour.end())
    sign = _SIGN.search(finding.help)
    if sign is not None:
        yield _write(sign[1], span.start, span.start + 1)
    if finding.help.startswith("write an ordinary blank"):
        yield Fix("write an ordinary blank", OFFERED, (Edit(span.start, span.start + 1, " "),))


def _editions(book_and_edition: str) -> list[str]:
    """The book in each of its editions: which of them holds is a decision."""
    name, _, edition = book_and_edition.partition(" edition ")
    if not edition:
        return [book_and_edition]
    try:
        book(name)
    except UnknownEdition as error:
        return [f"{name} edition {each}" for each in error.editions]
    except LookupError:
        pass
    return [book_and_edition]


def without_quotes(finding: Finding) -> Iterator[Fix]:
    """A choice that was written as a text."""
    text = finding.at.span.text
    if len(text) > 2 and text[0] == text[-1] == '"':
        yield _write(text[1:-1], finding.at.span.start, finding.at.span.end)


def turned_round(finding: Finding) -> Iterator[Fix]:
    """A range with its smaller value first."""
    parts = re.fullmatch(
        r"(\S+)([ \t]*[^\s.…]*)([ \t]*(?:\.\.|…)[ \t]*)(\S+)([ \t]*.*)", finding.at.span.text
    )
    if parts is None:
        return
    low, low_unit, _, high, unit = parts.groups()
    low_unit, unit = low_unit.rstrip(), unit.rstrip()
    # A unit written once belongs to both.
    first = f"{high}{unit if low_unit else ''}"
    second = f"{low}{low_unit or unit}"
    yield _write(f"{first} .. {second}", finding.at.span.start, finding.at.span.end)


def decimal_point(finding: Finding) -> Iterator[Fix]:
    """A point in place of the comma between two digits."""
    span = finding.at.span
    text = finding.source.text
    start, end = span.start, span.start + 1
    while start and text[start - 1].isdigit():
        start -= 1
    while end < len(text) and text[end].isdigit():
        end += 1
    number = f"{text[start : span.start]}.{text[span.start + 1 : end]}"
    yield Fix(f"write {number}", OFFERED, (Edit(span.start, span.start + 1, "."),))


def width_counts(finding: Finding) -> Iterator[Fix]:
    """What a width counts: neither is preferred."""
    end = finding.at.span.end
    for words in ("total", "each side"):
        yield Fix(f"write `{words}`", OFFERED, (Edit(end, end, f" {words}"),))


def bound(finding: Finding) -> Iterator[Fix]:
    """The value that just keeps to the limit."""
    found = _BOUND.search(finding.help)
    if found is None:
        return
    right, more = found[1], found[2] == "more"
    span = finding.at.span
    text = span.text
    amounts = [m for m in _AMOUNT.finditer(text) if not text[m.start() - 1 : m.start()].isalpha()]
    if not amounts:
        return
    if "each side" in text:
        # The limit counts the whole width.
        yield _write(f"{right} total", span.start, span.end)
        return
    if ".." in text or "…" in text:
        parts = re.fullmatch(r"(.+?)([ \t]*(?:\.\.|…)[ \t]*)(.+)", text)
        if parts is not None:
            low, sign, high = parts.groups()
            unit = right.split(" ", 1)[-1]
            if more and unit != right and high.endswith(unit) and unit not in low:
                # The unit behind the second value belongs to both.
                right = right.removesuffix(unit).rstrip()
            changed = f"{right}{sign}{high}" if more else f"{low}{sign}{right}"
            yield _write(changed, span.start, span.end)
        return
    amount = amounts[0]
    yield _write(right, span.start + amount.start(), span.start + amount.end())


def by_rule(finding: Finding) -> Iterator[Fix]:
    """`by rule` in place of a value that differs from what the rules give."""
    span = finding.at.span
    amounts = list(_AMOUNT.finditer(span.text))
    if amounts:
        start, end = amounts[0].start(), amounts[-1].end()
        yield _write("by rule", span.start + start, span.start + end)


def rate_by_rule(finding: Finding) -> Iterator[Fix]:
    """A rate that is limited by the rules."""
    end = finding.at.span.end
    yield Fix("write `at most by rule`", OFFERED, (Edit(end, end, " at most by rule"),))


def language_version(finding: Finding) -> Iterator[Fix]:
    """The version of the language this program knows."""
    found = re.search(r"write spec (\d+)", finding.help)
    number = re.search(r"\d+", finding.at.span.text)
    if found is not None and number is not None:
        start = finding.at.span.start
        yield _write(found[1], start + number.start(), start + number.end())


def _write(right: str, start: int, end: int) -> Fix:
    return Fix(f"write `{right}`", OFFERED, (Edit(start, end, right),))
