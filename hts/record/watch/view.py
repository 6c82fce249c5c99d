"""What is shown of a run that goes on."""

from __future__ import annotations

from typing import NamedTuple


class Row(NamedTuple):
    """One thermocouple now. Temperatures degC, rates K/h, None where unknown or without limit.

    `rate` is over the window of the job; `rate_limit` what is allowed at this temperature and
    direction; `zone` and `place` say where it sits; `below_top` and `above_bottom` the distances to
    the range of the hold that is due or going on, the second only once it was reached; `note` says
    what is wrong with the reading.
    """

    tag: str
    duty: str
    reading: float | None
    rate: float | None
    rate_limit: float | None
    below_top: float | None
    above_bottom: float | None
    note: str
    zone: str = ""
    place: str = ""


class View(NamedTuple):
    """The run now. `clock` is the record's own at its last row; times in s.

    `phase` is what goes on, in words, `next` what follows. `counted`, `required` and `left` are of
    the hold that is due or going on; `counting` whether its clock runs. `step` is the step that
    goes on, as the sheet says it; `ends` the time of day a hold that counts is complete; `stands`
    why its clock does not run.
    """

    title: str
    clock: str
    elapsed: float
    readings: int
    phase: str
    next: str
    counted: float | None
    required: float | None
    left: float | None
    counting: bool
    rows: tuple[Row, ...]
    alarms: tuple[str, ...]
    assumed: tuple[str, ...]
    simulated: bool
    step: str = ""
    ends: str = ""
    stands: str = ""

    @property
    def clock_state(self) -> str:
        """What the clock of the hold does, in a word or three."""
        if self.counting:
            return "runs"
        return "stands" if self.counted or self.stands else "has not begun"
