"""Slips made by hand: what a check told it still tells, and what is right it still passes."""

from __future__ import annotations

import pytest

from tests.corruption.by_hand import ByHand, applied, right, slips, told
from tests.corruption.share import JOBS, ROOT
from tests.sampling import in_turn, whose_turn

TOLD = [slip for slip in slips() if not slip.excuse]
SILENT = [each for each in right() if not each.excuse]
#: Jobs of a weld or a few: to check one takes some hundredths of a second.
_SMALL = {path.relative_to(ROOT).as_posix() for path in JOBS if path.stem != "turnaround-list"}


def _quick(each: ByHand) -> bool:
    """Whether nothing but such a job has to be checked."""
    return all(change.file in _SMALL for change in each.changes)


def test_each_stands_in_its_file_and_no_two_are_alike() -> None:
    made = [str(sorted(applied(each)[0].items())) for each in (*slips(), *right())]
    assert len(made) > 900
    assert len(set(made)) == len(made)


def test_slips_told_stay_told() -> None:
    quick = [slip for slip in TOLD if _quick(slip)]
    missed = [str(slip) for slip in whose_turn(quick, len(quick) // 4) if told(slip) is None]
    assert missed == []


def test_what_is_right_stays_silent() -> None:
    quick = [each for each in SILENT if _quick(each)]
    found = {str(each): told(each) for each in whose_turn(quick, len(quick) // 2)}
    assert {each: finding.message for each, finding in found.items() if finding} == {}


@pytest.mark.parametrize("part", in_turn(range(4), 4))
def test_all_of_them(part: int) -> None:
    assert [str(slip) for slip in TOLD[part::4] if told(slip) is None] == []
    found = {str(each): told(each) for each in SILENT[part::4]}
    assert {each: finding.message for each, finding in found.items() if finding} == {}
