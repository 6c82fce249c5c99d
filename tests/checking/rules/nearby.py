"""Texts near the examples of a rule, where a slip in it would show.

Each was found by `python -m tests.mutants.nearby`: a text that shows a slip in the rule that its
examples do not show.

A row of `nearby.txt` is a list of JSON: the rule, its examples, the base, the edits made, and a
digest of what the rule alone tells then, or `nothing`.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import NamedTuple

from hts.base.findings import Finding
from hts.checking.checker.run import judged_by
from hts.checking.govern.case import Case
from hts.checking.rules.examples import BASES, changed
from hts.checking.rules.rule import Rule
from hts.language.model import Spec
from tests.texts import spec_of
from tests.told import digest

KEPT = Path(__file__).with_name("nearby.txt")


class Nearby(NamedTuple):
    """``examples`` are numbers among the bad and then the good ones of a rule, made one after the
    other in the first one's base, or in `base` where one is named; each edit replaces an old text
    that stands there once."""

    examples: tuple[int, ...]
    base: str = ""
    edits: tuple[tuple[str, str], ...] = ()

    def text(self, rule: Rule) -> str | None:
        """None where it cannot be made."""
        every = [*rule.bad, *rule.good]
        if max(self.examples) >= len(every):
            return None
        first, *more = [every[number] for number in self.examples]
        base = self.base or first.base
        if any(each.base != base for each in more):
            return None
        text = BASES[base] if self.base else changed(base, first.changes)
        left = [each.changes for each in ([first, *more] if self.base else more)]
        for old, new in [*(change for changes in left for change in changes), *self.edits]:
            if text.count(old) != 1:
                return None
            text = text.replace(old, new)
        return text

    def today(self, rule: Rule) -> str | None:
        return [*rule.bad, *rule.good][self.examples[0]].today


class Row(NamedTuple):
    """``told`` is "nothing", or a digest of it."""

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


def told(rule: Rule, place: Nearby) -> str | None:
    """All that the rule alone tells of a text; None where it can no longer be made."""
    text = place.text(rule)
    return None if text is None else told_of(rule, spec_of(text), place.today(rule))


def shortened(whole: str) -> str:
    """As it is kept."""
    return digest([whole]) if whole else "nothing"


def told_of(rule: Rule, spec: Spec, today: str | None) -> str:
    """Each finding of the rule alone, whole."""
    case = Case(spec, today)
    judged_by(case, [rule])
    found = [each for each in case.report.findings if each.kind.code == rule.kind.code]
    return " and ".join(map(_whole, found))


def _whole(finding: Finding) -> str:
    places = [
        f"{each.span.start}-{each.span.end} {each.text}" for each in (finding.at, *finding.others)
    ]
    whole = (finding.severity, finding.address, finding.message, *places, *finding.notes)
    return " | ".join((*whole, finding.help))
