"""What a cell may hold besides text: numbers, times, formulas of our own, room to write in."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import Dimension, Quantity
from hts.base.quantities.number import round_to
from hts.job.outputs.show import NEAREST, Shown

#: Where the first of the two is as precise as paper, the second is what a spreadsheet counts in.
_SECONDS_OF_DAY = 86_400
_MINUTE = 60
#: 2000-01-01 as a spreadsheet counts days: what is smaller is a time without its date.
DATED = 36_526


class Figure(NamedTuple):
    """A number, shown with so many decimals."""

    value: float
    places: int = 0


class Duration(NamedTuple):
    """A time as a spreadsheet counts it, in days; shown as hours and minutes."""

    days: float


class Formula(NamedTuple):
    """A formula of this program, never of a specification; `shown` is what it comes to while the
    cells to fill in are empty."""

    text: str
    shown: float | str
    form: str


class Fill(NamedTuple):
    """Room to write in: text, a figure or a moment; nothing else can be typed in. A moment has its
    date, and may have to be later than the one in the cell `after`, as `E12`."""

    form: str = "text"
    after: str = ""


Cell = str | Figure | Duration | Formula | Fill

EMPTY = ""
TEXT, FIGURE, MOMENT = "text", "figure", "moment"


def figures(
    shown: Shown, value: Quantity | None, dimension: Dimension, toward: str = NEAREST
) -> list[Cell]:
    """One cell for each unit on paper, rounded as on paper."""
    return [as_figure(text) for text in shown.cells(value, dimension, toward)]


def as_figure(text: str) -> Cell:
    """A number as paper has it; anything else stays text."""
    try:
        return Figure(float(text), len(text.partition(".")[2]))
    except ValueError:
        return text


def duration(seconds: Fraction | None, toward: str = NEAREST, unlimited: str = EMPTY) -> Cell:
    """Whole minutes; `unlimited` where nothing limits the time."""
    if seconds is None:
        return unlimited
    minutes = round_to(seconds / _MINUTE, 0, toward)
    return Duration(float(minutes * _MINUTE / _SECONDS_OF_DAY))
