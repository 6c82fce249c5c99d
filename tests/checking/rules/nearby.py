"""Texts near the examples of a rule, where a slip in it would show.

Each was found by `python -m tests.mutants.nearby`: a text that shows a slip in the rule that its
examples do not show.

A row of `nearby.txt` is a list of JSON: the rule, its examples, the base, the edits made, and what
the rule alone tells then: `nothing`, or a digest of all and the first message.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from itertools import takewhile
from pathlib import Path
from typing import NamedTuple

from hts.base.findings import Finding, Report
from hts.base.text import Source
from hts.checking.checker.run import judged_by
from hts.checking.govern.case import Case
from hts.checking.rules.examples import BASES, changed
from hts.checking.rules.rule import Rule
from hts.language.model import Loader, Spec
from tests.told import digest

KEPT = Path(__file__).with_name("nearby.txt")
_TOP = Path(__file__).parents[3]
#: Stands in an edit for what lies between the first words of an old text and its end.
_BETWEEN = " … "


class Nearby(NamedTuple):
    """``examples`` are numbers among the bad and then the good ones of a rule, made one after the
    other in the first one's base, or in `base` where one is named, which may be a file of the
    repository; each edit replaces an old text that stands there once."""

    examples: tuple[int, ...]
    base: str = ""
    edits: tuple[tuple[str, str], ...] = ()

    def text(self, rule: Rule | None = None) -> str | None:
        """None where it cannot be made."""
        every = [*rule.bad, *rule.good] if rule is not None else []
        if any(number >= len(every) for number in self.examples):
            return None
        some = [every[number] for number in self.examples]
        if self.base.endswith(".hts"):
            text = (_TOP / self.base).read_text("utf-8")
        elif self.base:
            text = BASES[self.base]
        else:
            text = changed(some[0].base, some[0].changes)
            if any(each.base != some[0].base for each in some):
                return None
            some = some[1:]
        for old, new in [*(change for each in some for change in each.changes), *self.edits]:
            found = whole(text, old)
            if found is None:
                return None
            text = text.replace(found, new)
        return text

    def spec(self, rule: Rule | None = None) -> Spec | None:
        text = self.text(rule)
        if text is None:
            return None
        if self.base.endswith(".hts"):
            path = str(_TOP / self.base)
            return Spec(Source(text, self.base, path), Loader(str(_TOP)))
        return Spec(Source(text, "example.hts"), Loader("/"))

    def shorter(self, rule: Rule) -> Nearby:
        """The same text by shorter edits."""
        edits = self.edits
        for number, (old, new) in enumerate(self.edits):
            text = self._replace(edits=edits[:number]).text(rule)
            assert text is not None
            if whole(text, old) == old:
                edits = (*edits[:number], shorter(text, old, new), *edits[number + 1 :])
        made = self._replace(edits=edits)
        return made if made.text(rule) == self.text(rule) else self

    def today(self, rule: Rule) -> str | None:
        return [*rule.bad, *rule.good][self.examples[0]].today if self.examples else None


def whole(text: str, old: str) -> str | None:
    """What an edit replaces, where it stands there once."""
    first, between, last = old.partition(_BETWEEN)
    if text.count(first) != 1:
        return None
    start = text.index(first)
    end = text.find(last, start + len(first)) if between else start + len(first)
    return None if end < 0 else text[start : end + len(last)]


def with_less_between(text: str, old: str) -> str:
    """A long old text by its first line and its last."""
    first, _, last = old.strip("\n").partition("\n")
    last = last.rpartition("\n")[2] + old[len(old.rstrip("\n")) :]
    short = f"{old[: len(old) - len(old.lstrip(chr(10)))]}{first}{_BETWEEN}{last}"
    return short if len(old) > 2 * len(short) and whole(text, short) == old else old


def shorter(text: str, old: str, new: str) -> tuple[str, str]:
    """The edit without the words behind what it changes, as far as its place can be told."""
    one, other = (re.findall(r"\s*\S+|\s+$", each) for each in (old, new))
    alike = takewhile(lambda pair: pair[0] == pair[1], zip(one[::-1], other[::-1], strict=False))
    for end in range(len(list(alike)), 0, -1):
        less, instead = ("".join(words[: len(words) - end]) for words in (one, other))
        if less and text.count(less) == 1 and text.index(less) == text.index(old):
            return less, instead
    return old, new


class Row(NamedTuple):
    """``told`` is "nothing", or a digest of it and the first message."""

    place: Nearby
    told: str


def rows() -> dict[str, tuple[Row, ...]]:
    """By the name of the rule, in the order kept."""
    found: dict[str, tuple[Row, ...]] = {}
    for line in KEPT.read_text("utf-8").splitlines() if KEPT.exists() else []:
        rule, examples, base, edits, told = json.loads(line)
        place = Nearby(tuple(examples), base, tuple((old, new) for old, new in edits))
        found[rule] = (*found.get(rule, ()), Row(place, told))
    return found


def write(kept: Mapping[str, Iterable[Row]]) -> None:
    lines = [
        json.dumps([rule, *row.place, row.told], ensure_ascii=False)
        for rule, some in sorted(kept.items())
        for row in some
    ]
    KEPT.write_text("\n".join([*lines, ""]), "utf-8")


def told(rule: Rule, place: Nearby) -> list[Finding] | None:
    """All that the rule alone tells of a text; None where it can no longer be made."""
    spec = place.spec(rule)
    return None if spec is None else told_of(rule, Case(spec, place.today(rule)))


def shortened(found: list[Finding]) -> str:
    """As it is kept."""
    if not found:
        return "nothing"
    more = f" and {len(found) - 1} more" if len(found) > 1 else ""
    return f"{digest(map(in_full, found))} {found[0].address}: {found[0].message}{more}"


def told_of(rule: Rule, case: Case) -> list[Finding]:
    """Each finding of the rule alone."""
    case.report = Report()
    case.nothing.clear()
    judged_by(case, [rule])
    return [each for each in case.report.findings if each.kind.code == rule.kind.code]


def in_full(finding: Finding) -> str:
    places = [
        f"{each.span.start}-{each.span.end} {each.text}" for each in (finding.at, *finding.others)
    ]
    full = (finding.severity, finding.address, finding.message, *places, *finding.notes)
    return " | ".join((*full, finding.help))
