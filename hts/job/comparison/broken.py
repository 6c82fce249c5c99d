"""What the newer text breaks, or breaks no longer: findings of a check that one side alone has.

A limit that moves under a text that stays the same, two zones put on one circuit, a calibration
that now ends before the job: the change itself may be small, what it breaks is not.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import NamedTuple

from hts.base.findings import Finding
from hts.checking.checker.run import check_case
from hts.checking.checker.setting import Setting
from hts.checking.govern.case import Case
from hts.job.comparison.change import Change, Side, make
from hts.job.comparison.lookup import named
from hts.job.comparison.registry import ADDED, REMOVED, RENAMED, Row
from hts.language.model import Spec

#: Code and address of a finding, on the newer side's names.
Key = tuple[str, str]


class Checked(NamedTuple):
    """What a check finds in a text but for errors of the language, which are told apart from
    these; `unpredicted` are the treatments it asks for a prediction of."""

    findings: list[Finding]
    unpredicted: tuple[str, ...]


@lru_cache(maxsize=4)
def checked(spec: Spec, today: str | None = None) -> Checked:
    """Judged without a day unless one is given, so that the same two texts always compare alike.
    Nothing is predicted: that takes minutes, and a comparison is one of texts. Not to be changed:
    whoever compares one text with several has it judged once."""
    language = {id(finding) for finding in spec.findings}
    case = Case(spec, today)
    found = check_case(case, Setting(never_predicts=True))
    return Checked([one for one in found if id(one) not in language], tuple(case.unpredicted))


def broken(
    old: Checked, new: Checked, changes: Iterable[Change], joints: list[tuple[str, str]]
) -> Iterator[Change]:
    """The findings that one side alone has; of several alike as many as there are more."""
    renamed = [(f"{a}/", f"{b}/") for a, b in joints if a != b]
    renamed += [
        (f"{c.old.address}/", f"{c.new.address}/")
        for c in changes
        if c.action == RENAMED and c.old is not None and c.new is not None
    ]
    before = [(finding, _key(finding, renamed)) for finding in old.findings]
    after = [(finding, _key(finding, ())) for finding in new.findings]
    for finding in _more(before, after):
        yield make("", _row(finding), REMOVED, _side(finding), None)
    for finding in _more(after, before):
        yield make("", _row(finding), ADDED, None, _side(finding))


def _key(finding: Finding, renamed: Iterable[tuple[str, str]]) -> Key:
    address = f"{finding.address}/"
    for old, new in renamed:
        if address.startswith(old):
            address = new + address.removeprefix(old)
    return finding.kind.code, address


def _more(these: list[tuple[Finding, Key]], those: list[tuple[Finding, Key]]) -> Iterator[Finding]:
    there = Counter(key for _, key in those)
    for finding, key in these:
        if there[key] > 0:
            there[key] -= 1
        else:
            yield finding


def _row(finding: Finding) -> Row:
    return named("check", "advice" if finding.severity == "advice" else "limit or rule")


def _side(finding: Finding) -> Side:
    text = f"{finding.kind.name}: {finding.message}"
    return Side(finding.address, text, text, finding.at.span)
