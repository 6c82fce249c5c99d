"""One cause is one finding: what several joints share is told once, and names them.

What is written once, in one block or for a whole weld list, and is wrong for several joints, is one
cause. So is the same mistake in one column of a table, row by row.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from hts.base.findings import Finding, Label
from hts.language.model import Spec
from hts.language.model.joint import Joint
from hts.language.rows.table_source import TableSource
from hts.language.vocabulary.joint import Joint as JointEntry

#: As many joints are named in one finding, and as many rows pointed at.
NAMED = 5
_WORDS = re.compile(r"[\w.-]*\w")
_FIGURES = re.compile(r"\d+(?:[./: ]\d+)*")


def gathered(findings: Iterable[Finding], spec: Spec) -> list[Finding]:
    """The findings with one for each cause, in their order; cells and rows named in words."""
    groups: dict[tuple[object, ...], list[_About]] = {}
    for finding in findings:
        about = _about(finding, spec.joints)
        groups.setdefault(_cause(about), []).append(about)
    return [_one(same) for same in groups.values()]


class _About(NamedTuple):
    """A finding, the joint it is about ("" for none), its row, and the rest of its address."""

    finding: Finding
    name: str
    row: JointEntry | None
    rest: str


def _about(finding: Finding, joints: Mapping[str, Joint]) -> _About:
    """The joint of the address, or, where that is of a controller or a cycle of many, the one that
    the message names."""
    name, _, rest = finding.address.partition("/")
    if name not in joints:
        # Nothing but names is looked for: a message tells of few joints, a list may have thousands.
        named = next((word for word in _WORDS.findall(finding.message) if word in joints), "")
        if named:
            name, rest = named, finding.address
    return _About(finding, name, joints[name].row if name in joints else None, rest)


def _cause(about: _About) -> tuple[object, ...]:
    """What findings of one cause have in common. One that is graver, or says something else than
    other figures, is another cause and never hidden behind the first."""
    finding, name, row, rest = about
    span, code = finding.at.span, (finding.kind.code, finding.severity)
    message = _without(finding.message, name)
    if isinstance(span.source, TableSource):
        column = span.source.column_at(span.start)
        # Held to one place of the text, such as the scope, all cells beyond it are one cause.
        against = next((o.span for o in finding.others if not _in_table((o,))), None)
        message = message if against is None else _FIGURES.sub("#", message)
        return code, span.source.path, column, against, message
    if row is not None:
        return code, span, rest, _FIGURES.sub("#", message)
    return code, span, message


def _without(message: str, name: str) -> str:
    """A message without the name of the joint."""
    return re.sub(rf"(?<![\w.-]){re.escape(name)}(?![\w.-])", "\0", message) if name else message


def _one(same: list[_About]) -> Finding:
    first, _, row, _ = same[0]
    in_table = isinstance(first.at.span.source, TableSource)
    if len(same) == 1 and not in_table and row is None:
        return first
    others = [_named(label) for label in first.others]
    notes = list(first.notes)
    if not in_table and row is not None and not _in_table(first.others):
        others.append(_row(row))
    several = len({each.name for each in same}) > 1
    if len(same) > 1 and not in_table and row is None and not several:
        notes += [f"the same at {each.finding.address}" for each in same[1:]]
    elif len(same) > 1:
        for each in same[1:NAMED]:
            if in_table:
                others.append(_named(each.finding.at))
            elif each.row is not None:
                others.append(_row(each.row))
        notes += _notes(same)
    return Finding(
        first.kind,
        first.message,
        _named(first.at),
        address=first.address,
        others=others,
        notes=notes,
        help=first.help,
        severity=first.severity,
    )


def _notes(same: list[_About]) -> list[str]:
    """Which welds it is, and what is said of them where that differs."""
    names = list(dict.fromkeys(each.name for each in same))
    count = len(same)
    named = ", ".join(names[:NAMED])
    more = f" and {len(names) - NAMED} more" if len(names) > NAMED else ""
    found = [f"the same {count} times: {named}{more}"]
    if len(names) == count:
        found = [f"the same for {count} welds: {named}{more}"]
    plain = _without(same[0].finding.message, names[0])
    differing: dict[str, str] = {}
    for finding, name, _, _ in same[1:]:
        message = _without(finding.message, name)
        if message != plain:
            differing.setdefault(message, f"{name}: {finding.message}")
    found += list(differing.values())[: NAMED - 1]
    if len(differing) >= NAMED:
        found.append(f"and {len(differing) - NAMED + 1} more that differ in their figures")
    return found


def _in_table(labels: Iterable[Label]) -> bool:
    return any(isinstance(label.span.source, TableSource) for label in labels)


def _row(row: JointEntry) -> Label:
    return _named(Label(row.place("names"), ""))


def _named(label: Label) -> Label:
    """A place in a table with its weld and column in words."""
    source = label.span.source
    if not isinstance(source, TableSource):
        return label
    words = source.words_at(label.span.start)
    return label._replace(text=f"{label.text}, {words}" if label.text else words)
