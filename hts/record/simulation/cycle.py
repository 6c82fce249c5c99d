"""The run itself: the program followed step by step, as controllers follow it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.record.errors import RecordError
from hts.record.plan import HEAT, HOLD, Plan, Span
from hts.record.record import POWER_BACK, POWER_LOST, Event
from hts.record.simulation.departures import (
    BROKEN_HOLD,
    COLD_FOR,
    COOLED_TOO_FAST,
    FASTER,
    HEATER_LOSS,
    HEATER_OFF_FOR,
    HOT_BY,
    HOT_FOR,
    OVER_RATE,
    POWER_LOSS,
    POWER_OFF_FOR,
    SHORT_HOLD,
    SHORTER,
    TOO_COLD,
    TOO_HOT,
    WIDE_SPREAD,
)
from hts.record.simulation.thermal import AMBIENT, LOSS, Hand, Zone, advance, zones

#: K/h. How fast a program heats where it states no rate.
_FREE_RATE = 150.0
#: s. How long a hold lasts whose time nothing gives, and how much longer others are held.
_OPEN_HOLD = 3600.0
_LONGER = 240.0
#: K. A setpoint waits while a zone is farther behind than this.
_BEHIND = 12.0
#: s. Nobody records a run that goes nowhere.
_LONGEST = 14 * 24 * 3600.0


class Course(NamedTuple):
    """`elapsed` float64 [n] s; `zones` float64 [n, zones] degC; `held` the span of time, s, in
    which the hottest hold was kept, None where there is none."""

    elapsed: NDArray[np.float64]
    zones: NDArray[np.float64]
    events: tuple[Event, ...]
    held: tuple[float, float] | None


def course(
    plan: Plan, random: np.random.RandomState, seconds: float, departures: frozenset[str]
) -> Course:
    """The temperatures of the zones every `seconds`, from the start of control down to its end."""
    return _Walk(plan, random, seconds, departures).run()


class _Walk:
    def __init__(
        self,
        plan: Plan,
        random: np.random.RandomState,
        seconds: float,
        departures: frozenset[str],
    ) -> None:
        self._plan = plan
        self._random = random
        self._seconds = seconds
        self._departures = departures
        start = plan.control_start
        first = plan.spans[0].start if plan.spans else AMBIENT
        begin = min(first, start - 25 if start is not None else first)
        if plan.kept_before is not None:
            # What comes from preheat or a bake has been kept hot, with a little to spare.
            begin = max(begin, plan.kept_before.value + 15)
        self._zones: list[Zone] = zones(max(1, len(plan.zones)), random, max(begin, AMBIENT))
        self._setpoint = max(begin, AMBIENT)
        self._time = 0.0
        self._times: list[float] = []
        self._rows: list[list[float]] = []
        self._events: list[Event] = []
        self._held: tuple[float, float] | None = None
        # Long intervals are walked in smaller steps: a controller does not sleep for a minute.
        self._parts = max(1, round(seconds / 10))
        self._hand = Hand()
        self._given_up = False

    def run(self) -> Course:
        self._note()
        for span in self._plan.spans:
            if span.action == HOLD:
                self._hold(span)
            elif span.action == HEAT:
                self._heat(span)
            else:
                self._cool(span)
        self._cool_to_the_end()
        return Course(np.array(self._times), np.array(self._rows), tuple(self._events), self._held)

    # Steps --------------------------------------------------------------------------------------

    def _heat(self, span: Span) -> None:
        assert span.end is not None
        rate = float(span.step.rate.value) if span.step.rate is not None else _FREE_RATE
        if OVER_RATE in self._departures and span.limit is not None:
            rate = span.limit * FASTER
        weak = frozenset({0}) if WIDE_SPREAD in self._departures else frozenset[int]()
        self._hand = Hand(weak=weak)
        middle = (self._setpoint + span.end) / 2
        lost = POWER_LOSS in self._departures and span is self._main(HEAT)
        while self._setpoint < span.end and self._goes_on():
            if lost and self._setpoint >= middle:
                lost = False
                self._lose_power()
            behind = self._setpoint - min(zone.at for zone in self._zones)
            waits = behind > _BEHIND and not weak
            self._tick(0.0 if waits else rate / 3600, span.end)
        self._hand = Hand()

    def _hold(self, span: Span) -> None:
        assert span.end is not None and span.low is not None and span.high is not None
        # A hold without a least time would make up for the one before it, at the same range.
        open_hold = 0.0 if SHORT_HOLD in self._departures else _OPEN_HOLD
        least = span.least if span.least is not None else open_hold
        wanted = least + _LONGER
        if SHORT_HOLD in self._departures:
            # What passes on the way out of the range counts, too.
            wanted = least * SHORTER - self._way_out(span)
            if span.least is not None and wanted < 0:
                raise RecordError(
                    self._plan.address,
                    f"it cools so slowly out of the range that {SHORT_HOLD} cannot be made",
                    "choose another departure",
                )
        if SHORT_HOLD not in self._departures and span.longest is not None:
            wanted = min(wanted, max(least, (least + span.longest) / 2))
        self._setpoint = span.end
        main = span is self._main(HOLD)
        counted, began = 0.0, None
        done: set[str] = set()
        while counted < wanted and self._goes_on() and not self._given_up:
            if main and counted > wanted / 2:
                self._depart(span, done)
            self._tick(0.0, span.end)
            if all(span.low + 1 <= zone.at <= span.high for zone in self._zones):
                counted += self._seconds
                began = began if began is not None else self._time
        if main:
            self._held = (began if began is not None else self._time, self._time)

    def _way_out(self, span: Span) -> float:
        """s from the setpoint of a hold down to the foot of its range, as fast as the next step
        and the losses let it go."""
        assert span.end is not None and span.low is not None
        loss = (span.end - AMBIENT) / LOSS * 3600
        after = next((one for one in self._plan.spans if one.number > span.number), None)
        programmed = after.step.rate if after is not None else None
        rate = min(loss, float(programmed.value)) if programmed is not None else loss
        return (span.end - span.low) / rate * 3600

    def _depart(self, span: Span, done: set[str]) -> None:
        """What goes wrong half way through a hold, once."""
        assert span.high is not None and span.end is not None
        for name, hand, duration in (
            (TOO_HOT, Hand(offset=span.high - span.end + HOT_BY), HOT_FOR),
            (TOO_COLD, Hand(dead=frozenset({0})), COLD_FOR),
        ):
            if name in self._departures and name not in done:
                done.add(name)
                self._hand = hand
                self._for(duration, 0.0, span.end)
                self._hand = Hand()
        if BROKEN_HOLD in self._departures and BROKEN_HOLD not in done:
            done.add(BROKEN_HOLD)
            self._lose_power()
        if HEATER_LOSS in self._departures:
            self._hand = Hand(dead=frozenset({0}))
            self._for(HEATER_OFF_FOR, 0.0, span.end)
            self._given_up = True

    def _cool(self, span: Span) -> None:
        end = span.end if span.end is not None else self._plan.control_end
        if end is None:
            return
        self._hand = Hand(bare=COOLED_TOO_FAST in self._departures)
        if span.step.rate is None:
            self._fall(end)
            return
        rate = float(span.step.rate.value)
        while self._setpoint > end and self._goes_on():
            # A setpoint that runs away from metal cooling by itself is no use.
            ahead = max(zone.at for zone in self._zones) - self._setpoint > _BEHIND
            self._tick(0.0 if ahead else -rate / 3600, end)

    def _fall(self, end: float) -> None:
        """Heaters off, down to a temperature."""
        self._hand = self._hand._replace(power=False)
        while max(zone.at for zone in self._zones) > end and self._goes_on():
            self._tick(0.0, end)
        self._setpoint = end

    def _cool_to_the_end(self) -> None:
        end = self._plan.control_end
        last = min(zone.at for zone in self._zones)
        self._fall((end if end is not None else max(last, AMBIENT)) - 20)

    # Time ---------------------------------------------------------------------------------------

    def _lose_power(self) -> None:
        hand = self._hand
        self._events.append(Event(POWER_LOST, self._time))
        self._hand = hand._replace(power=False)
        self._for(POWER_OFF_FOR, 0.0, self._setpoint)
        self._events.append(Event(POWER_BACK, self._time))
        self._hand = hand
        # Heating goes on from where the part is, as a careful technician does it.
        hold = self._setpoint
        self._setpoint = min(zone.at for zone in self._zones)
        rates = [span.step.rate for span in self._plan.spans if span.action == HEAT]
        slowest = min((float(r.value) for r in rates if r is not None), default=_FREE_RATE)
        while self._setpoint < hold and self._goes_on():
            self._tick(slowest / 3600, hold)

    def _for(self, duration: float, slope: float, end: float) -> None:
        until = self._time + duration
        while self._time < until:
            self._tick(slope, end)

    def _tick(self, slope: float, end: float) -> None:
        """One interval; the setpoint moves by `slope` K/s and stops at `end`."""
        part = self._seconds / self._parts
        for _ in range(self._parts):
            before = self._setpoint
            moved = before + slope * part
            if slope and (moved - end) * slope > 0:
                moved = end
            self._setpoint = moved
            advance(self._zones, moved, (moved - before) / part, part, self._hand)
        self._time += self._seconds
        self._note()

    def _note(self) -> None:
        self._times.append(self._time)
        self._rows.append([zone.at for zone in self._zones])

    def _goes_on(self) -> bool:
        return self._time < _LONGEST

    def _main(self, action: str) -> Span | None:
        """The step things go wrong in: the longest heating with a limit, the hottest hold."""
        spans = [span for span in self._plan.spans if span.action == action]
        if action == HOLD:
            return max(spans, key=lambda span: span.end or 0.0, default=None)
        limited = [span for span in spans if span.limit is not None] or spans
        return max(limited, key=lambda span: (span.end or 0.0) - span.start, default=None)
