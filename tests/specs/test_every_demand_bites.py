"""Every demand of the two demanding owners bites: the line of the job that meets it is taken out,
and the demand, or the text itself, is found wanting. Owners and jobs are invented: no source."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import pytest

from hts.base.text import Source
from hts.checking.checker.run import check_spec
from hts.checking.govern.case import Case
from hts.checking.govern.demanded import Outcome, of_job, of_joint
from hts.language.model import Spec
from tests.rows import each_row
from tests.specs import found
from tests.texts import examples

ROOT = Path(__file__).resolve().parents[2]
JOBS = ROOT / "tests" / "specs" / "jobs"
NAMES = ("shipyard", "vessel")
#: As many as each of the two demands at least; the rest are limits.
FEWEST = 60


def _spec(name: str, text: str) -> Spec:
    loader = examples()
    path = str(JOBS / f"{name}.hts")
    return Spec(Source(text, loader.name(path), path), loader)


def _text(name: str) -> str:
    return (JOBS / f"{name}.hts").read_text("utf-8")


def _outcomes(spec: Spec) -> list[Outcome]:
    case = Case(spec)
    return [*of_job(case), *(one for joint in case.joints() for one in of_joint(case, joint))]


@lru_cache
def _whole(name: str) -> tuple[Outcome, ...]:
    return tuple(_outcomes(_spec(name, _text(name))))


def _lines() -> Iterator[object]:
    """Each demand that one line of the job meets, and nothing beside it."""
    for name in NAMES:
        for number, outcome in enumerate(_whole(name)):
            line = _line(name, outcome)
            if line is not None:
                yield pytest.param(name, number, id=f"{name}-{outcome.verb} {outcome.what.text}")


def _line(name: str, outcome: Outcome) -> tuple[int, int] | None:
    spans = {(span.source.name, span.start) for span in outcome.where}
    if outcome.verb != "requires" or len(spans) != 1:
        return None
    span = outcome.where[0]
    if not span.source.name.endswith(f"{name}.hts"):
        return None
    text = _text(name)
    start = text.rfind("\n", 0, span.start) + 1
    end = text.find("\n", span.start) + 1
    # What goes on in the next line, or opens a block, is no line by itself.
    return None if text[start:end].rstrip().endswith(("{", ",")) else (start, end)


@pytest.mark.parametrize("name", NAMES)
def test_each_owner_demands_a_good_deal_and_the_job_meets_it(name: str) -> None:
    outcomes = _whole(name)
    assert [one for one in outcomes if one.verdict != "met"] == []
    assert len({one.line.start for one in outcomes}) >= FEWEST


@each_row(("name", "number"), list(_lines()))
def test_without_the_line_that_meets_it(name: str, number: int) -> None:
    outcome = _whole(name)[number]
    span = _line(name, outcome)
    assert span is not None
    text = _text(name)
    spec = _spec(name, text[: span[0]] + text[span[1] :])
    if any(finding.severity == "error" for finding in spec.findings):
        return
    again = [one for one in _outcomes(spec) if one.what.text == outcome.what.text]
    assert [one.verdict for one in again] == ["not met"]


@pytest.mark.parametrize("name", NAMES)
def test_the_job_passes_without_a_word(name: str) -> None:
    assert check_spec(_spec(name, _text(name)), found.TODAY) == []
