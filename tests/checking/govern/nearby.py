"""Texts and lines of procedures where a slip in what governs would show, and what governs there.

Each was found by `python -m tests.mutants.governing`. A row of `nearby.txt` is a list of JSON. Of
a line: the job it is put to, the line, what it limits there and what comes of it. Of a text: its
base, the edits made, and some of the lines `all_told` has of it.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from hts.base.text import Source
from hts.checking.govern import demanded
from hts.checking.govern.case import Case
from hts.language.model import Loader, Spec
from tests.checking.govern.governs import all_told, limits_told, outcomes_told
from tests.checking.rules.nearby import Nearby, in_full
from tests.specs.test_requirement_kinds import ROOT, _under

KEPT = Path(__file__).with_name("nearby.txt")
TODAY = "2026-11-20"


class Line(NamedTuple):
    """A line of a procedure, put to a job of the repository."""

    job: str
    line: str
    told: tuple[str, ...] = ()


class Text(NamedTuple):
    place: Nearby
    told: tuple[str, ...] = ()


def rows(kept: Path = KEPT) -> tuple[list[Line], list[Text]]:
    lines: list[Line] = []
    texts: list[Text] = []
    for row in kept.read_text("utf-8").splitlines():
        base, what, told = json.loads(row)
        if isinstance(what, str):
            lines.append(Line(base, what, tuple(told)))
        else:
            place = Nearby((), base, tuple((old, new) for old, new in what))
            texts.append(Text(place, tuple(told)))
    return lines, texts


def write(lines: Iterable[Line], texts: Iterable[Text], kept: Path = KEPT) -> None:
    every: list[list[object]] = [list(line) for line in sorted(set(lines))]
    every += [[text.place.base, text.place.edits, text.told] for text in sorted(set(texts))]
    written = [json.dumps(row, ensure_ascii=False) for row in every]
    kept.write_text("\n".join([*written, ""]), "utf-8")


def told_of_lines(job: str, lines: Iterable[str]) -> list[tuple[str, ...]]:
    """Of each line, put to a job in a procedure of its own, what it limits and what comes of it."""
    named = [(f"K-{number}", line) for number, line in enumerate(lines)]
    case = Case(Spec(Source(_under(job, named), job, str(ROOT / job)), Loader(str(ROOT))), TODAY)
    found: list[str] = []
    for joint in case.joints():
        found += outcomes_told(demanded.of_joint(case, joint))
        for treatment in (None, *case.treatments(joint)):
            found += [line for line in limits_told(case.limits(joint, treatment)) if "K-" in line]
    found += outcomes_told(demanded.of_job(case))
    return [tuple(_of(name, found)) for name, _ in named]


def _of(name: str, found: list[str]) -> Iterator[str]:
    for line in dict.fromkeys(found):
        if f"{name} " in line:
            yield line.replace(f"{name} ", "K ")


def told_of_text(place: Nearby) -> list[str]:
    spec = place.spec()
    assert spec is not None, place
    case = Case(spec, TODAY)
    lines = list(all_told(case))
    lines += [f"{each.kind.code} {in_full(each)}" for each in case.report.findings]
    return [*lines, f"in all {len(lines)} lines"]


def holds(text: Text, told_of: Callable[[Nearby], list[str]], file: Path = KEPT) -> None:
    """Fails where a line kept of a text is told no longer."""
    told = told_of(text.place)
    if os.environ.get("TELL_ANEW"):
        lines, texts = rows(file)
        now = Text(text.place, tuple(line for line in text.told if line in told))
        write(lines, [*(row for row in texts if row.place != text.place), now], file)
        return
    for line in text.told:
        assert line in told, "\n".join(told)
