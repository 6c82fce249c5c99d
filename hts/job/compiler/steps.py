"""The steps of a program, made one after another from the segments of a treatment."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import RATE, RATIO, Interval, Quantity
from hts.base.quantities.number import places_for, round_to
from hts.checking.govern import JointLimits
from hts.job.compiler.assumed import AMBIENT
from hts.job.compiler.clock import ElapsedClock, Times, whole_minutes
from hts.job.compiler.errors import CannotCompile
from hts.job.compiler.hold import HoldPlan, plan
from hts.job.compiler.rates import NoRate, Piece, pieces
from hts.job.compiler.units import Units
from hts.job.compiler.why import Why, derived
from hts.language.vocabulary.segments import Cool, Heat, Hold, Segment

HEAT, HOLD, COOL = "heat", "hold", "cool"
_HOUR = 3600
_FIGURES = 2

ADDED = "added to reach the setpoint of the hold"
REACHED = "already there when the step begins"


class Step(NamedTuple):
    """One line of a program. `end` None: wherever the part cools to.

    `segment` is the number of the entry in the text, `limit` the fastest rate allowed, counting
    from `counts_from` (None: throughout), `rate` the slower one that is programmed; without a
    limit the step is free. `window` is the range of a hold. `set_from`, `set_to` and the alarms
    are as they are keyed into the controller, in its own unit.
    """

    number: int
    segment: int
    action: str
    start: Quantity
    end: Quantity | None
    times: Times
    limit: Quantity | None = None
    limit_why: Why | None = None
    counts_from: Quantity | None = None
    rate: Quantity | None = None
    rate_why: Why | None = None
    window: Interval | None = None
    window_why: tuple[Why, ...] = ()
    target_why: Why | None = None
    least: Quantity | None = None
    least_why: Why | None = None
    longest: Quantity | None = None
    alarm_high: Quantity | None = None
    alarm_low: Quantity | None = None
    alarm_high_why: Why | None = None
    alarm_low_why: Why | None = None
    set_from: Quantity | None = None
    set_to: Quantity | None = None
    medium: str = ""
    note: str = ""

    @property
    def is_free(self) -> bool:
        """Whether neither a rate nor a time is programmed."""
        return self.action != HOLD and self.rate is None and bool(self.end != self.start)


class Walk:
    """Goes through the segments; `steps` grows. Raises CannotCompile at the first gap."""

    def __init__(
        self,
        where: str,
        start: Quantity,
        end: Quantity | None,
        margin: Fraction,
        limits: JointLimits,
        units: Units,
    ) -> None:
        """`where` names the treatment in messages; `end` is where an open cooling is no longer
        controlled; `margin` is the part of a limit the program stays below it."""
        self.steps: list[Step] = []
        self._where = where
        self._at = start
        self._last = end
        self._margin = margin
        self._limits = limits
        self._units = units
        self._clock = ElapsedClock()

    def run(self, segments: list[Segment]) -> list[Step]:
        before: Segment | None = None
        for number, segment in enumerate(segments, 1):
            if isinstance(segment, Hold):
                self.hold(number, segment, before)
            else:
                self._ramp(number, segment)
            before = segment
        return self.steps

    # Heating and cooling ------------------------------------------------------------------------

    def _ramp(self, number: int, segment: Heat | Cool) -> None:
        medium = (segment.medium or "") if isinstance(segment, Cool) else ""
        action = HEAT if isinstance(segment, Heat) else COOL
        end = segment.to
        if end is None:
            end = self._last if self._last is not None and self._last < self._at else None
        if end is None:
            self._open_cooling(number, medium)
        elif end == self._at or (end > self._at) != (action == HEAT):
            times = self._clock.run(Fraction(0), Fraction(0), Fraction(0))
            self._add(number, action, self._at, times, medium=medium, note=REACHED)
        else:
            self.ramp(number, end, segment, medium)

    def ramp(
        self,
        number: int,
        end: Quantity,
        segment: Heat | Cool | None,
        medium: str = "",
        note: str = "",
    ) -> None:
        """To a temperature, one step for each stretch with a limit of its own."""
        try:
            found = pieces(self._at, end, segment, self._limits)
        except NoRate:
            gap = f"{self._where}: no rule gives the rate of step {number}"
            raise CannotCompile([gap]) from None
        action = HEAT if end > self._at else COOL
        for piece in found:
            rate, why = self._programmed(number, piece)
            self._add(
                number,
                action,
                piece.end,
                self._ramp_times(piece, rate),
                limit=piece.limit,
                limit_why=piece.why,
                counts_from=piece.counts_from,
                rate=rate,
                rate_why=why,
                medium=medium,
                note=note,
            )

    def _programmed(self, number: int, piece: Piece) -> tuple[Quantity | None, Why | None]:
        """The rate to set: the limit less the margin, rounded down to what can be keyed in."""
        if piece.limit is None:
            return None, None
        unit = self._units.first(RATE)
        wanted = piece.limit.to(unit) * (1 - self._margin)
        number_set = round_to(wanted, places_for(wanted, _FIGURES), "down")
        rate = Quantity.of(number_set, unit, RATE)
        if rate.value <= 0 or (piece.slowest is not None and rate < piece.slowest):
            least = f", below the slowest allowed, {piece.slowest}" if piece.slowest else ""
            raise CannotCompile(
                [f"{self._where}: the margin leaves a rate of {rate} for step {number}{least}"]
            )
        share = Quantity.of(self._margin * 100, "%", RATIO)
        return rate, derived(
            "rate limit × (1 − rate margin), rounded down",
            f"{piece.limit} × (1 − {share}) → {rate}",
        )

    def _ramp_times(self, piece: Piece, rate: Quantity | None) -> Times:
        if rate is None or piece.limit is None:
            return self._clock.stand()
        span = abs(piece.end.value - piece.start.value) * _HOUR
        slowest = span / piece.slowest.value if piece.slowest is not None else None
        return self._clock.run(
            whole_minutes(span / rate.value, slowest), span / piece.limit.value, slowest
        )

    def _open_cooling(self, number: int, medium: str) -> None:
        """Cooling to no stated end: what is limited is programmed, the rest is left to itself."""
        governing = self._limits.of("cooling rate")
        if governing is not None and governing.setter("maximum") is not None:
            lowest = governing.thresholds()[0] or AMBIENT
            if lowest < self._at:
                self.ramp(number, lowest, None, medium)
        self._add(number, COOL, None, self._clock.stand(), medium=medium)

    # Holding ------------------------------------------------------------------------------------

    def hold(self, number: int, segment: Hold, before: Segment | None) -> None:
        held = plan(segment, before, self._limits, self._units, f"{self._where}, step {number}")
        self.hold_at(number, held, before)

    def hold_at(self, number: int, held: HoldPlan, before: Segment | None) -> None:
        """Goes to the setpoint of a hold, where the step before has not, and holds."""
        if held.target != self._at:
            rising = held.target > self._at
            same = before if isinstance(before, Heat if rising else Cool) else None
            self.ramp(number, held.target, same, note=ADDED)
        least = held.least.value if held.least is not None else None
        longest = held.longest.value if held.longest is not None else None
        times = self._clock.run(
            whole_minutes(least, longest) if least is not None else None,
            least or Fraction(0),
            longest,
        )
        self._add(
            number,
            HOLD,
            held.target,
            times,
            window=held.window,
            window_why=held.window_why,
            target_why=held.target_why,
            least=held.least,
            least_why=held.least_why,
            longest=held.longest,
            note=held.note,
        )

    def _add(
        self, segment: int, action: str, end: Quantity | None, times: Times, **more: object
    ) -> None:
        self.steps.append(
            Step(len(self.steps) + 1, segment, action, self._at, end, times, **more)  # type: ignore[arg-type]
        )
        if end is not None:
            self._at = end
