"""What a loss of power excuses and which holds are one, on rows given by hand. How long the way
back may take, and what shows that the power was off, is practice, no source."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from hts.record.judging import excused
from hts.record.judging.hold_clocks import held
from hts.record.judging.verdict import Stretch
from hts.record.plan import COOL, HEAT, HOLD
from tests.rows import each_row

OFF = Stretch(1000.0, 3400.0)
TIMES = np.arange(0.0, 9000.0, 100.0)


def falling(to: float, at: float = 705.0) -> np.ndarray:
    """Straight down while the power is off."""
    return np.interp(TIMES, OFF, (at, to))


def evidence(*values: np.ndarray) -> Any:
    def between(start: float, end: float) -> slice:
        return slice(*np.searchsorted(TIMES, (start, end + 1e-6)))

    return SimpleNamespace(
        times=TIMES, values=np.array(values), plan=None,
        record=SimpleNamespace(between=between, interval=100.0),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("values", "most", "on_its_way", "until"),
    [
        # To 640 degC: 50 K up to 690 at 100 K/h, where none is limited, are 30 min; twice that and
        # 10 min until the controllers have settled.
        (falling(640.0), 200.0, False, 3400 + 3600 + 600),
        # Of 50 K a loss of power explains 20: from 685 up are 5 K, 3 min, twice.
        (falling(640.0), 20.0, False, 3400 + 360 + 600),
        # Never out of range: while it was off.
        (falling(690.0), 200.0, False, 3400),
        (falling(689.0), 200.0, False, 3400 + 72 + 600),
        # In range just as it went, or below and on its way back from the loss before.
        (falling(640.0, 690.0), 200.0, False, 3400 + 3600 + 600),
        (falling(640.0, 689.0), 200.0, False, None),
        (falling(640.0, 689.0), 200.0, True, 3400 + 3600 + 600),
        (TIMES * np.nan, 200.0, False, None),
    ],
)
def test_how_long_a_place_may_be_cold(
    values: np.ndarray, most: float, on_its_way: bool, until: float | None,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    monkeypatch.setattr(excused, "pieces", lambda plan, action: [])
    found = excused._of(evidence(values), values, OFF, 690.0, most, on_its_way)
    assert (found is None) == (until is None)
    if found is not None and until is not None:
        assert found.start == 1000.0
        assert found.end == pytest.approx(until, abs=0.1)


def test_a_short_loss_settles_as_long_as_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(excused, "pieces", lambda plan, action: [])
    values = np.interp(TIMES, (1000.0, 1200.0), (705.0, 680.0))
    found = excused._of(evidence(values), values, Stretch(1000.0, 1200.0), 690.0, 50.0, False)
    assert found is not None and found.end == pytest.approx(1200 + 720 + 200, abs=0.1)


@each_row(
    ("values", "until"),
    [
        # All fell by 3 K or more: as long as they fell, and two rows.
        ((falling(600.0), falling(650.0)), 3400.0),
        ((falling(702.0), falling(650.0)), 3400.0),
        # The hottest fell by less: at most ten minutes.
        ((falling(702.1), falling(650.0)), 1600.0),
        # It falls to the middle of the time and comes up again.
        ((np.interp(TIMES, (1000, 2000, 3400), (705, 690, 705)),), 2200.0),
        # One reading tells nothing.
        ((np.where(TIMES == 1500, 700.0, np.nan),), 1600.0),
    ],
)
def test_how_long_the_power_was_off(values: tuple[np.ndarray, ...], until: float) -> None:
    found = excused.really_off(evidence(*values), OFF)
    assert (found.start, found.end) == (1000.0, until)


def test_a_short_note_of_a_loss_is_no_longer_than_it_says() -> None:
    found = excused.really_off(evidence(falling(705.0)), Stretch(1000.0, 1300.0))
    assert found.end == 1300.0


@pytest.mark.parametrize(("second", "until"), [(7600.0, 11800.0), (7601.0, 7600.0)])
def test_a_loss_on_the_way_back_from_another(
    second: float, until: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """To 640 degC and no further: excused to 7600 s. Power lost again by then, until 7900 s, is on
    the way back: 3600 s more and 300 s to settle. A second later it had been cold before."""
    monkeypatch.setattr(excused, "pieces", lambda plan, action: [])
    case = evidence(falling(640.0))
    case.required = ("T1",)
    case.power_cuts = [OFF, Stretch(second, 7900.0)]
    low: Any = SimpleNamespace(low=690.0)
    (found,) = excused.excused(case, low)
    assert found == [pytest.approx((1000.0, until), abs=0.1)]


def span(
    number: int, action: str, end: float = 0.0, low: float = 690.0, high: float = 720.0
) -> Any:
    hold = action == HOLD
    return SimpleNamespace(
        number=number, action=action, end=end, low=low if hold else None,
        high=high if hold else None, least=60.0 if hold else None, longest=None, start=0.0,
    )  # fmt: skip


@each_row(
    ("spans", "cooled"),
    [
        # The coldest of several coolings between two holds, in whichever order.
        ([span(1, HOLD), span(2, COOL, 300), span(3, HEAT, 500), span(4, COOL, 350), span(5, HOLD)],
         [300, None]),
        ([span(1, HOLD), span(2, COOL, 350), span(3, HEAT, 500), span(4, COOL, 300), span(5, HOLD)],
         [300, None]),
        # Only heated between them, or cooled to no stated end.
        ([span(1, HOLD), span(2, HEAT, 750), span(3, HOLD, low=730, high=760)], [None, None]),
        ([span(1, HOLD), span(2, COOL), span(3, HOLD)], [0.0, None]),
        # What was cooled before the first hold, or before the one before, is not counted.
        ([span(1, COOL, 100), span(2, HOLD), span(3, COOL, 400), span(4, HOLD), span(5, COOL, 500),
          span(6, HOLD)], [400, 500, None]),
        # Two in one range one after the other are one; in two ranges they are two.
        ([span(1, HOLD), span(2, HOLD)], [None]),
        ([span(1, HOLD), span(2, HOLD, high=730)], [None, None]),
    ],
)  # fmt: skip
def test_the_holds_of_a_plan(spans: list[Any], cooled: list[float | None]) -> None:
    plan: Any = SimpleNamespace(spans=tuple(spans))
    assert [one.cooled for one in held(plan)] == cooled
