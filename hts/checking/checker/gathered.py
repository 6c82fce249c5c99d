"""One cause is one finding: what several joints share is told once, and names them.

What is written once, in one block or for a whole weld list, and is wrong for several joints, is one
cause. So is the same mistake in one column of a table, row by row.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from hts.base.findings import Finding, Label
from hts.language.model import Spec
from hts.language.rows.table_source import TableSource
from hts.language.vocabulary.joint import Joint

#: As many joints are named in one finding, and as many rows pointed at.
NAMED = 5
#: Cells of one column that may each be a slip of its own.
SLIPS = 8
_FIGURES = re.compile(r"\d+(?:[./: ]\d+)*")


def gathered(findings: Iterable[Finding], spec: Spec) -> list[Finding]:
    """The findings with one for each cause, in their order; cells and rows named in words."""
    groups: dict[tuple[object, ...], list[Finding]] = {}
    rows = {name: joint.row for name, joint in spec.joints.items() if joint.row is not None}
    for finding in findings:
        groups.setdefault(_cause(finding, rows), []).append(finding)
    _join_columns(groups)
    return [_one(same, rows) for same in groups.values()]


def _cause(finding: Finding, rows: dict[str, Joint]) -> tuple[object, ...]:
    """What findings of one cause have in common. One that is graver, or says something else than
    other figures, is another cause and never hidden behind the first."""
    span, code = finding.at.span, (finding.kind.code, finding.severity)
    name, _, rest = finding.address.partition("/")
    if isinstance(span.source, TableSource):
        column = span.source.column_at(span.start)
        return code, span.source.path, column, _without(finding.message, name)
    if name in rows:
        return code, span, rest, _FIGURES.sub("#", _without(finding.message, name))
    return code, span, finding.message


def _join_columns(groups: dict[tuple[object, ...], list[Finding]]) -> None:
    """Joins, in place, what differs in figures alone in more than ``SLIPS`` cells of one column.

    So many rows are one slip: of the head of the column, or of what it is held against.
    """
    alike: dict[tuple[object, ...], list[tuple[object, ...]]] = {}
    for cause, same in groups.items():
        if isinstance(same[0].at.span.source, TableSource):
            shape = (*cause[:-1], _FIGURES.sub("#", str(cause[-1])))
            alike.setdefault(shape, []).append(cause)
    for first, *further in alike.values():
        if len(further) >= SLIPS:
            for cause in further:
                groups[first] += groups.pop(cause)


def _without(message: str, name: str) -> str:
    """A message without the name of the joint."""
    return re.sub(rf"(?<![\w.-]){re.escape(name)}(?![\w.-])", "\0", message) if name else message


def _one(same: list[Finding], rows: dict[str, Joint]) -> Finding:
    first = same[0]
    about = first.address.split("/")[0]
    in_table = isinstance(first.at.span.source, TableSource)
    if len(same) == 1 and not in_table and about not in rows:
        return first
    others = [_named(label) for label in first.others]
    notes = list(first.notes)
    if not in_table and about in rows and not _in_table(first.others):
        others.append(_row(about, rows[about]))
    if len(same) > 1 and not in_table and about not in rows:
        notes += [f"the same at {finding.address}" for finding in same[1:]]
    elif len(same) > 1:
        for finding in same[1:NAMED]:
            name = finding.address.split("/")[0]
            if in_table:
                others.append(_named(finding.at))
            elif name in rows:
                others.append(_row(name, rows[name]))
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


def _notes(same: list[Finding]) -> list[str]:
    """Which welds it is, and what is said of them where that differs."""
    names = list(dict.fromkeys(finding.address.split("/")[0] for finding in same))
    count = len(same)
    named = ", ".join(names[:NAMED])
    more = f" and {len(names) - NAMED} more" if len(names) > NAMED else ""
    found = [f"the same {count} times: {named}{more}"]
    if len(names) == count:
        found = [f"the same for {count} welds: {named}{more}"]
    plain = _without(same[0].message, names[0])
    differing: dict[str, str] = {}
    for finding in same[1:]:
        name = finding.address.split("/")[0]
        message = _without(finding.message, name)
        if message != plain:
            differing.setdefault(message, f"{name}: {finding.message}")
    found += list(differing.values())[: NAMED - 1]
    if len(differing) >= NAMED:
        found.append(f"and {len(differing) - NAMED + 1} more that differ in their figures")
    return found


def _in_table(labels: Iterable[Label]) -> bool:
    return any(isinstance(label.span.source, TableSource) for label in labels)


def _row(name: str, row: Joint) -> Label:
    return _named(Label(row.place("names"), ""))


def _named(label: Label) -> Label:
    """A place in a table with its weld and column in words."""
    source = label.span.source
    if not isinstance(source, TableSource):
        return label
    words = source.words_at(label.span.start)
    return label._replace(text=f"{label.text}, {words}" if label.text else words)
