"""Applies a fix and proves what it does, or leaves the text as it is and says why.

The finding must be gone, and no new one come: of a fix that lets something be read at all, what was
hidden behind it is told and does not count. No comment is lost. A fix of the layout must leave the
meaning the same, as `hts diff` tells it; of any other the changes are told with their verdicts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from hts.base.findings import LAYOUT, Edit, Finding, Fix, FixKind, Report
from hts.base.findings.identity import identity
from hts.base.text import Source
from hts.checking.checker.run import check_spec
from hts.checking.checker.setting import Setting
from hts.checking.fixes import fixes_for
from hts.editor.place import Text
from hts.job.comparison.change import Change
from hts.job.comparison.compare import compare
from hts.language.layout.guard import comments
from hts.language.model import Spec
from hts.syntax import parse

#: Rounds of mending the layout: each may make room for the next.
_ROUNDS = 10
#: In a text with more findings than this, somebody has to look first what it is.
_MOST = 200
#: What was unreadable and is read now; what else cannot be read stays, and nothing new comes.
_READ_AGAIN = (("unreadable text", "removed"), ("unreadable text", "changed"))


class Refused(Exception):
    """Why a fix is not applied."""


class Proved(NamedTuple):
    """``text`` is the text with the fix, ``changes`` what it changes by meaning, ``then`` what was
    hidden behind the finding and is found now."""

    fix: Fix
    text: str
    changes: tuple[Change, ...]
    then: tuple[Finding, ...]

    @property
    def verdicts(self) -> list[str]:
        """Each change in a line: what it asks for, what it is, where."""
        return [
            f"{change.verdict} {change.kind} {change.action}: {change.address}".rstrip(": ")
            for change in self.changes
        ]


class Bench:
    """One text with its findings, on which fixes are tried."""

    def __init__(self, spec: Spec, setting: Setting, today: str | None) -> None:
        self.spec = spec
        self.setting = setting
        self.today = today
        self.findings = check_spec(spec, today, setting)

    def read(self, text: str) -> Spec:
        """Another text in the place of this one."""
        source = Source(text, self.spec.source.name, self.spec.source.path)
        return Spec(source, self.spec.loader, self.spec.defaults)

    def own(self) -> list[Finding]:
        """The findings in this text itself: what is used is never written to."""
        return [each for each in self.findings if each.source is self.spec.source]

    def prove(self, finding: Finding, fix: Fix) -> Proved:
        """The text with the fix, and what it changes. Raises Refused."""
        before = self.spec.source
        _refuse_untouchable(before, finding, fix)
        text = fix.applied(before.text)
        spec = self.read(text)
        if _comments(before) != _comments(spec.source):
            raise Refused("a comment would be lost")
        found = check_spec(spec, self.today, self.setting)
        then = _new(self.findings, found)
        if _count(found, finding) >= _count(self.findings, finding):
            raise Refused("it would be found again")
        if fix.kind == LAYOUT or not _hides(finding):
            if then:
                raise Refused(f"it would be found then: {then[0].message}")
        elif any(_beside(each, fix) for each in then if _hides(each)):
            raise Refused("the line would still not be read")
        changes = compare(self.read(before.text), self.read(text)).changes
        if fix.kind == LAYOUT:
            other = [c for c in changes if (c.kind, c.action) not in _READ_AGAIN]
            if other:
                raise Refused(f"the meaning would change: {other[0].kind} {other[0].action}")
        return Proved(fix, text, changes, tuple(then))

    def changes_of(self, fix: Fix) -> list[str]:
        """What edits change by meaning where nothing was found before. Raises Refused."""
        text = fix.applied(self.spec.source.text)
        spec = self.read(text)
        if _comments(self.spec.source) != _comments(spec.source):
            raise Refused("a comment would be lost")
        then = _new(self.findings, check_spec(spec, self.today, self.setting))
        if then:
            raise Refused(f"it would be found then: {then[0].message}")
        changes = compare(self.read(self.spec.source.text), self.read(text)).changes
        return Proved(fix, text, changes, ()).verdicts

    def offers(self, kind: FixKind | None = None) -> Iterator[tuple[Finding, Fix]]:
        """Every fix of the findings in this text, of one kind if asked, not yet proved. Each is
        worked out when it is wanted: to try one, the whole text is read anew."""
        for finding in self.own():
            for fix in fixes_for(finding, kind):
                yield finding, fix


def laid_right(spec: Spec, setting: Setting, today: str | None) -> tuple[str, int]:
    """A text with all that can be mended without a change of meaning, and how many findings that
    mended."""
    count = 0
    for _ in range(_ROUNDS):
        bench = Bench(spec, setting, today)
        if len(bench.findings) > _MOST:
            break
        for finding, fix in bench.offers(LAYOUT):
            try:
                spec = bench.read(bench.prove(finding, fix).text)
            except Refused:
                continue
            count += 1
            break
        else:
            break
    return spec.source.text, count


def _refuse_untouchable(source: Source, finding: Finding, fix: Fix) -> None:
    """Raises Refused where a person alone may write."""
    if fix.kind == LAYOUT:
        return
    placed = Text(source)
    for edit in fix.edits:
        place = placed.at(edit.start)
        path = place.path if place is not None else ""
        if path.startswith(("job.signed", "job.history")):
            raise Refused("what was signed, and its history, is written by people alone")
        if path.startswith("procedure.") and not _hides(finding):
            raise Refused("a limit of a procedure is changed by its owner alone")


def _comments(source: Source) -> list[str]:
    return [text for text, _ in comments(parse(source, Report()))]


def _count(findings: list[Finding], wanted: Finding) -> int:
    key = identity(wanted)
    return sum(identity(each) == key for each in findings)


def _new(before: list[Finding], after: list[Finding]) -> list[Finding]:
    """Findings of the second list that the first one lacks."""
    known = Counter((each.kind.code, each.address, each.message) for each in before)
    found = []
    for each in after:
        key = (each.kind.code, each.address, each.message)
        if known[key]:
            known[key] -= 1
        else:
            found.append(each)
    return found


def _hides(finding: Finding) -> bool:
    """Whether something could not be read, so that it was not judged either."""
    return finding.kind.code[0] in "SW" or finding.kind.code.startswith("Q1")


def _beside(finding: Finding, fix: Fix) -> bool:
    """Whether a finding in the text with the fix lies on a line that was edited."""
    line = finding.source.position(finding.at.span.start)[0]
    shift = 0
    for edit in sorted(fix.edits):
        start, end = edit.start + shift, edit.start + shift + len(edit.text)
        shift += len(edit.text) - (edit.end - edit.start)
        first, last = finding.source.position(start)[0], finding.source.position(end)[0]
        if first <= line <= last:
            return True
    return False


def edits_between(before: str, after: str) -> Edit:
    """The one edit that makes one text of another: as short as its two ends allow."""
    start = 0
    least = min(len(before), len(after))
    while start < least and before[start] == after[start]:
        start += 1
    end = 0
    while end < least - start and before[-1 - end] == after[-1 - end]:
        end += 1
    return Edit(start, len(before) - end, after[start : len(after) - end])
