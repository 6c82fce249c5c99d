"""Every kind of requirement of grammar/REQUIREMENTS.md: a line the job meets passes without a word,
and a line it breaks is found, each by its own procedure. Sources stand beside each kind."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from hts.base.findings import Finding
from hts.base.text import Source
from hts.generate.requirement_kinds import RequirementKind, kinds
from hts.job.compiler import compile_spec
from hts.language.model import Spec
from hts.paper.packet.groups import subjects
from hts.paper.packet.packet_files import pages
from tests.paper.packet.test_words import strings as texts
from tests.specs import found
from tests.texts import examples

ROOT = Path(__file__).resolve().parents[2]
ROWS = kinds(str(ROOT))
JOBS = list(dict.fromkeys(row.job for row in ROWS))
#: Findings about how lines of several procedures stand to each other, and to the books.
_BETWEEN = (
    "looser-procedure",
    "row-without-effect",
    "precedence-of-other-documents",
)


def _under(job: str, lines: list[tuple[str, str]]) -> str:
    """The job under procedures of one line each, by their names."""
    text = (ROOT / job).read_text("utf-8")
    names = ", ".join(name for name, _ in lines)
    text, count = re.subn(r"(?m)^( +follows .*)", rf"\1, {names}", text)
    if not count:
        text, count = re.subn(r"(?m)^( +governed by .*)", rf"\1\n  follows {names}", text)
    assert count == 1
    for name, line in lines:
        text += f"\nprocedure {name} {{\n  revision  1 on 2026-01-01\n  {line}\n}}\n"
    return text


def _checked(job: str, lines: list[tuple[str, str]]) -> list[Finding]:
    text = _under(job, lines)
    return [f for f in found.checked(ROOT / job, text) if f.kind.name not in _BETWEEN]


def test_there_are_many_and_each_is_told_once() -> None:
    assert len(ROWS) >= 150
    assert len({row.kind for row in ROWS}) == len(ROWS)


def _met(job: str) -> list[tuple[str, str]]:
    return [(f"K-{n}", row.met) for n, row in enumerate(ROWS) if row.job == job]


@pytest.mark.parametrize("job", JOBS)
def test_what_the_job_meets_passes_without_a_word(job: str) -> None:
    findings = _checked(job, _met(job))
    # A procedure limits the spread over a longer way than the job does: told, and judged over both.
    told = [f"{one.kind.name}: {one.message}" for one in findings]
    assert [words for words in told if "limited over 1 m (3.28 ft) alone" not in words] == []


def _batches() -> list[list[RequirementKind]]:
    """Of two limits on one quantity the strictest is told: each batch has one of a quantity."""
    batches: list[list[RequirementKind]] = []
    taken: list[set[str]] = []
    for row in ROWS:
        quantity = re.split(r" at (?:least|most) ", row.broken)[0]
        key = row.kind if row.broken.startswith(("requires", "forbids", "prefers")) else quantity
        number = next(
            (n for n, keys in enumerate(taken) if key not in keys and batches[n][0].job == row.job),
            len(taken),
        )
        if number == len(taken):
            taken.append(set())
            batches.append([])
        taken[number].add(key)
        batches[number].append(row)
    return batches


@pytest.mark.parametrize("rows", _batches(), ids=lambda rows: f"{len(rows)} kinds")
def test_what_the_job_breaks_is_found(rows: list[RequirementKind]) -> None:
    lines = [(f"K-{number}", row.broken) for number, row in enumerate(rows)]
    job = rows[0].job
    findings = _checked(job, lines)
    silent = [
        row
        for (name, _), row in zip(lines, rows, strict=True)
        if not any(_about(finding, name) for finding in findings)
        # Among many a stricter one of another quantity may have been told in its place.
        and not any(_about(finding, "K-0") for finding in _checked(job, [("K-0", row.broken)]))
    ]
    assert [f"{row.kind}: {row.broken}" for row in silent] == []


def _about(finding: Finding, name: str) -> bool:
    """Whether a finding names the procedure, or points at its line."""
    if any(re.search(rf"\b{name}\b", text) for text in (finding.message, *finding.notes)):
        return True
    for place in (finding.at, *finding.others):
        text = place.span.source.text
        begins = text.rfind("\nprocedure ", 0, place.span.start)
        if begins >= 0 and text.startswith(f"\nprocedure {name} ", begins):
            return True
    return False


#: Limits of which a stricter one is in force: paper has that one, and the reason.
_BEATEN = {"hold time at least 90 min", "heating spread at most 200 K"}


@pytest.mark.parametrize("job_path", JOBS)
def test_what_is_asked_is_printed(job_path: str) -> None:
    """In the packet, with the line that asks for it."""
    lines = _met(job_path)
    loader = examples()
    path = str(ROOT / job_path)
    source = Source(_under(job_path, lines), loader.name(path), path)
    job = compile_spec(Spec(source, loader))
    (subject,) = subjects(job)
    cited = set(
        re.findall(r"\bK-\d+(?=,? (?:revision 1, )?line \d)", " ".join(texts(pages(subject))))
    )
    assert {line for name, line in lines if name not in cited} == (
        _BEATEN if job_path == JOBS[0] else set()
    )
