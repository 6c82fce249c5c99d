"""From one quantity to another, either end open: `690 .. 720 degC`, `705 +/- 15 degC`."""

from __future__ import annotations

from hts.base.quantities.dimensions import Dimension, difference_of
from hts.base.quantities.number import is_number
from hts.base.quantities.quantity import Quantity


class Interval:
    """All values from `low` to `high`, both included; None leaves an end open.

    ValueError when both ends are open or `low` is above `high`; TypeError when they differ in
    dimension.
    """

    __slots__ = ("high", "low")

    def __init__(self, low: Quantity | None, high: Quantity | None) -> None:
        if low is None and high is None:
            raise ValueError("an interval needs at least one end")
        if low is not None and high is not None and low > high:
            raise ValueError(f"{low} is above {high}")
        self.low = low
        self.high = high

    @staticmethod
    def between(low: str, high: str, dimension: Dimension) -> Interval:
        """`low .. high`; a low end without unit has the unit of the high end.

        Raises QuantityError, and ValueError when the ends are the wrong way round.
        """
        top = Quantity.read(high, dimension)
        return Interval(Quantity.read(_with_unit(low, top), dimension), top)

    @staticmethod
    def around(centre: str, tolerance: str, dimension: Dimension) -> Interval:
        """`centre +/- tolerance`; a centre without unit has the unit of the tolerance.

        A tolerance on a temperature is a temperature difference: 25 degF is 13.9 K. Raises
        QuantityError, and ValueError for a negative tolerance.
        """
        margin = Quantity.read(tolerance, difference_of(dimension))
        return Interval.plus_minus(Quantity.read(_with_unit(centre, margin), dimension), margin)

    @staticmethod
    def plus_minus(centre: Quantity, tolerance: Quantity) -> Interval:
        """`tolerance` to both sides of `centre`."""
        return Interval(centre - tolerance, centre + tolerance)

    @staticmethod
    def read(text: str, dimension: Dimension) -> Interval:
        """The interval `text` writes as `A .. B` or `A +/- B`.

        Raises QuantityError for an end, ValueError for a text of neither shape.
        """
        for mark, build in (("..", Interval.between), ("+/-", Interval.around)):
            first, found, second = text.partition(mark)
            if found:
                return build(first.strip(), second.strip(), dimension)
        raise ValueError(f"{text!r} is neither A .. B nor A +/- B")

    @property
    def dimension(self) -> Dimension:
        """The dimension of the ends."""
        end = self.high if self.low is None else self.low
        assert end is not None
        return end.dimension

    @property
    def width(self) -> Quantity | None:
        """High end less low end, None when an end is open."""
        return None if self.low is None or self.high is None else self.high - self.low

    def contains(self, value: Quantity | Interval) -> bool:
        """Whether a value, or every value of another interval, lies inside, ends included."""
        if isinstance(value, Quantity):
            return (self.low is None or self.low <= value) and (
                self.high is None or value <= self.high
            )
        low_inside = self.low is None or (value.low is not None and self.low <= value.low)
        high_inside = self.high is None or (value.high is not None and value.high <= self.high)
        return low_inside and high_inside

    def intersect(self, other: Interval) -> Interval | None:
        """What lies in both, None when nothing does."""
        lows = [end for end in (self.low, other.low) if end is not None]
        highs = [end for end in (self.high, other.high) if end is not None]
        low = max(lows) if lows else None
        high = min(highs) if highs else None
        if low is not None and high is not None and low > high:
            return None
        return Interval(low, high)

    def show(self) -> str:
        """`690 degC .. 720 degC`, `at least 690 degC` or `at most 720 degC`."""
        if self.low is None:
            return f"at most {self.high}"
        if self.high is None:
            return f"at least {self.low}"
        return f"{self.low} .. {self.high}"

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Interval):
            return NotImplemented
        return (self.low, self.high) == (other.low, other.high)

    def __hash__(self) -> int:
        return hash((self.low, self.high))

    def __repr__(self) -> str:
        return f"<Interval {self.show()}>"


def _with_unit(text: str, other: Quantity) -> str:
    return f"{text} {other.unit.symbol}" if is_number(text) else text
