"""One check spread over several machines: each takes a shard of the files, and their reports are
joined into one.

The files are put into the order of a digest of their names and dealt out like cards. So every
shard has as many files as another, give or take one; no pattern of the names (each job with its
large and its small file) makes one shard slow; and which file goes where depends neither on what
is in the files nor on the machine.
"""

from __future__ import annotations

import json
import os
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from hts import __version__
from hts.base.findings import ADVICE, ERROR, WARNING, Finding, Kind, Label, Severity
from hts.base.findings.fix import Edit, Fix, FixKind
from hts.base.text import Source, Span
from hts.base.text.blocks import brace_lines
from hts.checking.checker.program import digest_of
from hts.checking.checker.results import Results, Shard, ShardPlan, Suppressed, UncheckedFile
from hts.checking.checker.tasks import Task
from hts.language.model.defaults import Quieted

#: No text has more lines, since none is larger than 5 MB.
LONGEST = 5_000_001


class CannotJoin(Exception):
    """Reports that are not all the shards of one check; the message says why."""


def shard_plan(tasks: Sequence[Task | UncheckedFile], shard: Shard, today: str | None) -> ShardPlan:
    """How the tasks are dealt out."""
    digests = {
        task.setting.digest + (" predicted" if task.setting.predicts else "")
        for task in tasks
        if isinstance(task, Task)
    }
    conditions = digest_of("\n".join((today or "", *sorted(digests))).encode())
    return ShardPlan(shard, tuple(task.name for task in tasks), conditions)


def files_of_shard(
    tasks: Sequence[Task | UncheckedFile], shard: Shard
) -> list[Task | UncheckedFile]:
    """The tasks of one shard, in their order."""
    order = sorted(range(len(tasks)), key=lambda n: (digest_of(os.fsencode(tasks[n].name)), n))
    return [tasks[n] for n in sorted(order[shard.number - 1 :: shard.of])]


def to_data(results: Results, offered: Sequence[tuple[Fix, ...]]) -> dict[str, Any]:
    """What the JSON report of a shard says beside its findings, for joining it to the others.

    ``offered`` are the fixes of each finding. ``lines`` are those the findings and fixes point at,
    by file and number, and those with the braces of the blocks they lie in, so that the joined
    report can show and name the places without the files.
    """
    shard_plan = results.shard_plan
    assert shard_plan is not None
    lines: dict[str, dict[str, str]] = {}
    told = (*results.findings, *(each.finding for each in results.suppressed))
    places = [label.span for finding in told for label in (finding.at, *finding.others)]
    places += [
        finding.source.span(edit.start, edit.end)
        for finding, fixes in zip(results.findings, offered, strict=True)
        for fix in fixes
        for edit in fix.edits
    ]
    for source, start, end in places:
        kept = lines.setdefault(source.name, {})
        first, last = source.position(start)[0], source.position(end)[0]
        braces = () if kept else brace_lines(source)
        for number in (*braces, *range(first, last + 1)):
            kept[str(number)] = _whole_line(source, number)
    return {
        "number": shard_plan.shard.number,
        "of": shard_plan.shard.of,
        "files": list(shard_plan.files),
        "conditions": shard_plan.conditions,
        "lines": lines,
    }


def _whole_line(source: Source, number: int) -> str:
    """A line with the carriage return some editors end it with, which counts as a column."""
    starts = source.line_starts
    end = starts[number] - 1 if number < len(starts) else len(source.text)
    return source.text[starts[number - 1] : end]


def joined(reports: Mapping[str, bytes]) -> Results:
    """The results of the whole check from the JSON reports of its shards, by name of the report.

    Raises CannotJoin.
    """
    parts = [_read(name, data) for name, data in reports.items()]
    _all_of_one_check(list(reports), parts)
    whole = Results()
    whole.in_pieces = True
    checked = Counter(name for part in parts for name in part.checked)
    failures = {failure.name: failure for part in parts for failure in part.failures}
    for name in _shard_plan(parts[0]).files:
        if checked[name]:
            checked[name] -= 1
            whole.checked.append(name)
        else:
            whole.failures.append(failures[name])
    # Where a rule of a pack failed, the file was checked all the same.
    there = set(whole.checked)
    whole.failures += [f for part in parts for f in part.failures if f.name in there]
    whole.suppressed = [each for part in parts for each in part.suppressed]
    whole.quieted = list(dict.fromkeys(each for part in parts for each in part.quieted))
    whole.findings = [finding for part in parts for finding in part.findings]
    whole.arrange()
    return whole


def _all_of_one_check(names: list[str], parts: list[Results]) -> None:
    """Raises CannotJoin unless the reports are those of all shards of one check."""
    first = _shard_plan(parts[0])
    by_number: dict[int, str] = {}
    for name, part in zip(names, parts, strict=True):
        shard_plan = _shard_plan(part)
        if shard_plan.shard.of != first.shard.of or shard_plan.files != first.files:
            raise CannotJoin(f"{name} is not of the same check as {names[0]}: other files")
        if shard_plan.conditions != first.conditions:
            raise CannotJoin(
                f"{name} is not of the same check as {names[0]}: another configuration or day"
            )
        number = shard_plan.shard.number
        if number in by_number:
            raise CannotJoin(f"{by_number[number]} and {name} are both of shard {number}")
        by_number[number] = name
    of = first.shard.of
    missing = [str(number) for number in range(1, of + 1) if number not in by_number]
    if missing:
        raise CannotJoin(f"shard {', '.join(missing)} of {of} is missing")
    # A rule pack that fails on a file leaves it among both.
    named = [name for part in parts for name in {*part.checked, *(f.name for f in part.failures)}]
    if sorted(named) != sorted(first.files):
        raise CannotJoin("the reports do not name every file exactly once")


def _shard_plan(results: Results) -> ShardPlan:
    assert results.shard_plan is not None
    return results.shard_plan


def _read(name: str, data: bytes) -> Results:
    """The results a report tells of. Raises CannotJoin."""
    try:
        document = json.loads(data)
        version = document["tool"]["version"]
        if version != __version__:
            raise CannotJoin(f"{name} was written by hts {version}; this is hts {__version__}")
        if "shard" not in document:
            raise CannotJoin(f"{name} is not the report of a shard: check with --shard")
        results = Results()
        shard = document["shard"]
        number, of = int(shard["number"]), int(shard["of"])
        files = tuple(map(_text, shard["files"]))
        results.shard_plan = ShardPlan(Shard(number, of), files, _text(shard["conditions"]))
        sources = {file: _source(file, lines) for file, lines in shard["lines"].items()}
        results.checked = list(map(_text, document["checked"]))
        results.failures = [
            UncheckedFile(_text(f["name"]), _text(f["reason"])) for f in document["failures"]
        ]
        results.quieted = [
            Quieted(_text(q["origin"]), _text(q["words"])) for q in document["quieted"]
        ]
        kinds = {rule["code"]: _kind(rule) for rule in document["rules"]}
        results.findings = [_finding(f, sources, kinds) for f in document["findings"]]
        for finding, told in zip(results.findings, document["findings"], strict=True):
            finding.fixes = tuple(_fix(finding.source, fix) for fix in told["fixes"])
        results.suppressed = [
            Suppressed(_finding(f, sources, kinds), bool(f["waived"]), _text(f["reason"]))
            for f in document["suppressed"]
        ]
    except (
        ArithmeticError, AttributeError, LookupError, RecursionError, TypeError, ValueError
    ):  # fmt: skip
        raise CannotJoin(f"{name} is not a JSON report of hts check") from None
    return results


def _kind(data: dict[str, Any]) -> Kind:
    floor = data["floor"]
    return Kind(
        _text(data["code"]),
        _text(data["name"]),
        _severity(data["severity"]),
        _text(data["summary"]),
        _text(data["why"]),
        _text(data["fix"]),
        None if floor is None else _severity(floor),
    )


def _finding(
    data: dict[str, Any], sources: Mapping[str, Source], kinds: Mapping[str, Kind]
) -> Finding:
    return Finding(
        kinds[data["code"]],
        _text(data["message"]),
        _label(data["at"], sources),
        address=_text(data["address"]),
        others=[_label(other, sources) for other in data["others"]],
        notes=list(map(_text, data["notes"])),
        help=_text(data["help"]),
        severity=_severity(data["severity"]),
    )


def _fix(source: Source, data: dict[str, Any]) -> Fix:
    edits = [Edit(*_offsets(source, edit), _text(edit["text"])) for edit in data["edits"]]
    kind: FixKind = "layout" if data["kind"] == "layout" else "offered"
    return Fix(_text(data["title"]), kind, tuple(edits))


def _label(data: dict[str, Any], sources: Mapping[str, Source]) -> Label:
    source = sources[data["file"]]
    return Label(Span(source, *_offsets(source, data)), _text(data["text"]))


def _offsets(source: Source, data: dict[str, Any]) -> tuple[int, int]:
    """Where a place begins and ends, from its lines and columns."""
    starts = source.line_starts
    if min(data["line"], data["column"], data["end_line"], data["end_column"]) < 1:
        raise ValueError("lines and columns are counted from 1")
    start = starts[data["line"] - 1] + data["column"] - 1
    end = starts[data["end_line"] - 1] + data["end_column"] - 1
    if type(start) is not int or type(end) is not int or not 0 <= start <= end <= len(source.text):
        raise ValueError(f"{start}..{end}")
    return start, end


def _source(name: str, lines: Mapping[str, str]) -> Source:
    """A text that has the lines shown in their places and is empty elsewhere."""
    last = max(map(int, lines))
    if last > LONGEST:
        raise ValueError(last)
    return Source("\n".join(_text(lines.get(str(n), "")) for n in range(1, last + 1)), name)


def _severity(value: Any) -> Severity:
    for severity in (ERROR, WARNING, ADVICE):
        if value == severity:
            return severity
    raise ValueError(value)


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    return value
