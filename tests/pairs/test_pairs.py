"""Choices no shipped specification makes together: each pair of them stands in a complete one, and
its paper keeps what `held` says, whatever they are."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from random import Random

import pytest

from hts.base.findings import Finding
from hts.base.text import Source
from hts.checking.checker.run import check_spec
from hts.job.comparison import compare
from hts.language.model import Loader, Spec
from tests.coarse import coarse
from tests.pairs.choices import ALONE, FORMS, Choice, besides
from tests.pairs.cover import rows, some_rows, text_of
from tests.pairs.held import broken
from tests.paper.packet.jobs import of_text
from tests.sampling import in_turn

#: All pairs are judged in so many tests, which the processes share.
_PARTS = 8
CHOICES = [*FORMS, *(choice for choice in besides() if choice.about not in ALONE)]


def _spec(text: str) -> Spec:
    return Spec(Source(text, "x.hts", "/x.hts"), Loader("/"))


def _is_told(findings: list[Finding]) -> bool:
    """Whether an error is found, so that nothing is compiled."""
    return any(finding.severity == "error" for finding in findings)


def _judge(row: tuple[Choice, ...], *, packet: bool) -> bool:
    """Whether the row came to paper, which then kept everything."""
    text = text_of(row)
    findings = check_spec(_spec(text))
    if _is_told(findings):
        return False
    told = {finding.kind.name for finding in findings}
    assert sorted(set(broken(of_text(text), told, packet=packet))) == [], [str(one) for one in row]
    _differ(row, text)
    return True


def _differ(row: tuple[Choice, ...], text: str) -> None:
    """The same text is no change, and each neighbour, one choice away, is one, both ways."""
    spec = _spec(text)
    assert compare(spec, _spec(text)).changes == ()
    # Without a procedure that another choice names again nothing is gone.
    again = any(choice.about == "job.follows" for choice in row)
    gone = Random(text).choice([c for c in row if not (again and str(c) == "procedure: none")])
    other = _spec(text_of(tuple(choice for choice in row if choice is not gone)))
    there, back = compare(other, spec).changes, compare(spec, other).changes
    assert bool(there) is bool(back) is (str(gone) not in SAME_WORK), str(gone)


#: Choices that say what holds without them.
SAME_WORK = {
    "a place by the tape: arc": "the same in whole millimetres",
    "hold: as a tolerance": "the same range and time",
    "hold: in degF": "the same range",
    "wall: in inches": "the same wall",
    "job.follows: follows P-07": "the same procedure again",
    "thermocouple.surface: surface outside": "outside is usual",
}


@pytest.fixture(autouse=True)
def _coarse() -> Iterator[None]:
    with coarse():
        yield


@pytest.mark.parametrize("seed", range(4))
def test_choices_drawn_by_chance(seed: int) -> None:
    """A few, kept lean. Where two make an error it is told, and there is no paper."""
    quick = [choice for choice in CHOICES if "predict" not in choice.about]
    drawn = some_rows(quick, 2, 12, seed)
    assert sum(_judge(row, packet=seed == 0) for row in drawn) >= 1


@pytest.mark.long
def test_every_choice_stands_alone() -> None:
    """What a choice breaks by itself it breaks in all its rows, and would hide the others."""
    told = {str(choice) for choice in CHOICES if _is_told(check_spec(_spec(text_of((choice,)))))}
    assert told == set()
    assert len(CHOICES) >= 220


@cache
def _every() -> list[tuple[Choice, ...]]:
    return rows(CHOICES)


@pytest.mark.parametrize("part", in_turn(range(_PARTS), 2))
def test_every_pair_of_choices(part: int) -> None:
    some = _every()[part::_PARTS]
    on_paper = sum(_judge(row, packet=not n % 8) for n, row in enumerate(some))
    assert len(some) >= 300 // _PARTS
    assert on_paper >= 0.8 * len(some)
