"""The complete jobs of the invented plant, and what they share, have nothing wrong with them."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.checking.checker import Case
from hts.language.model import Spec
from tests.rows import each_row
from tests.sampling import whose_turn
from tests.specs.found import SPECS, TODAY, found
from tests.texts import examples

JOBS = sorted(SPECS.glob("*.hts"))
LIBRARY = sorted((SPECS / "library").glob("*.hts"))


def name(path: Path) -> str:
    return path.stem


def test_the_jobs_and_the_library_are_there() -> None:
    assert len(JOBS) >= 6
    assert len(LIBRARY) >= 4


@pytest.mark.parametrize("path", JOBS + LIBRARY, ids=name)
def test_a_good_specification_has_no_finding(path: Path) -> None:
    assert found(path, TODAY) == []


@pytest.mark.parametrize("path", whose_turn(JOBS), ids=name)
def test_nor_has_it_one_where_no_day_is_known(path: Path) -> None:
    assert found(path, None) == []


@each_row("path", JOBS + LIBRARY, ids=name)
def test_says_at_the_top_that_it_is_invented(path: Path) -> None:
    first = path.read_text("utf-8").split("\n", 1)[0]
    assert first.startswith("# Tern Island is an invented plant")


@each_row("path", JOBS, ids=name)
def test_nothing_a_limit_hangs_on_is_left_open(path: Path) -> None:
    """A spec without findings could still be one whose limits nobody was able to work out."""
    loader = examples()
    case = Case(Spec(loader.read(str(path)), loader), TODAY)
    joints = list(case.joints())
    assert joints
    for joint in joints:
        for treatment in [*case.treatments(joint)] or [None]:
            limits = case.limits(joint, treatment)
            assert limits.thickness is not None
            for governing in limits.governing.values():
                assert governing.demands or governing.unanswered == ()
