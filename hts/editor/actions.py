"""What an editor offers to do at a place: fixes of findings, `by rule`, a waiver to fill in."""

from __future__ import annotations

from typing import Any

from hts.base.findings import ERROR, LAYOUT, OFFERED, Edit, Finding, Fix
from hts.checking.checker.setting import Setting
from hts.editor.place import Text
from hts.editor.proof import Bench, Refused, edits_between, laid_right
from hts.language.model import Spec
from hts.language.vocabulary.types import OrRule

Data = dict[str, Any]

#: Fixes tried at one place: each costs a check.
_MOST = 8
WAIVER, ALL_LAYOUT = "waiver", "all layout"


def actions(spec: Spec, setting: Setting, today: str | None, start: int, end: int) -> list[Data]:
    """Each with title, kind, edits and the code of its finding; what it changes by meaning is part
    of the title."""
    bench = Bench(spec, setting, today)
    there = [f for f in bench.own() if f.at.span.start <= end and f.at.span.end >= start]
    found: list[Data] = []
    tried = 0
    for finding, fix in bench.offers():
        if finding not in there or tried >= _MOST:
            continue
        tried += 1
        try:
            proved = bench.prove(finding, fix)
        except Refused:
            continue
        title = fix.title if fix.kind == LAYOUT else f"{fix.title} ({_verdict(proved.verdicts)})"
        found.append(_action(title, fix.kind, fix.edits, finding))
    found += _by_rule(bench, start)
    found += [_waiver(spec, finding) for finding in there if _waivable(finding)]
    return found


def mended(spec: Spec, setting: Setting, today: str | None) -> list[Data]:
    """All that can be mended without a change of meaning, as one action; none where nothing is."""
    before = spec.source.text
    text, count = laid_right(spec, setting, today)
    if not count:
        return []
    edit = edits_between(before, text)
    return [{"title": "mend the layout", "kind": ALL_LAYOUT, "edits": [list(edit)], "code": ""}]


def _action(title: str, kind: str, edits: tuple[Edit, ...], finding: Finding | None) -> Data:
    return {
        "title": title,
        "kind": kind,
        "edits": [list(edit) for edit in edits],
        "code": f"{finding.kind.code} {finding.kind.name}" if finding is not None else "",
    }


def _verdict(verdicts: list[str]) -> str:
    """The first change that is not about what could not be read."""
    telling = [each for each in verdicts if "unreadable text" not in each]
    return (telling or verdicts or ["no change of meaning"])[0]


def _by_rule(bench: Bench, offset: int) -> list[Data]:
    """`by rule` in place of a value, where the rules give one and nothing speaks against it."""
    place = Text(bench.spec.source).at(offset)
    if place is None or place.field is None or not isinstance(place.field.type, OrRule):
        return []
    span = place.value_span
    if span is None or span.text == "by rule" or not span.text.strip():
        return []
    fix = Fix("write `by rule`", OFFERED, (Edit(span.start, span.end, "by rule"),))
    try:
        verdicts = bench.changes_of(fix)
    except Refused:
        return []
    return [_action(f"{fix.title} ({_verdict(verdicts)})", OFFERED, fix.edits, None)]


def _waivable(finding: Finding) -> bool:
    return bool(finding.address) and finding.kind.floor != ERROR and " " not in finding.address


def _waiver(spec: Spec, finding: Finding) -> Data:
    """A waiver at the end of the text; it is not clean before a person gave reason and role."""
    text = spec.source.text
    block = f'waive {finding.kind.name} on {finding.address} {{\n  reason  ""\n  by      ""\n}}\n'
    before = "\n" if text.endswith("\n") else "\n\n"
    edit = Edit(len(text), len(text), before + block)
    title = f"waive {finding.kind.name} here: reason and role are still to be given"
    return _action(title, WAIVER, (edit,), finding)
