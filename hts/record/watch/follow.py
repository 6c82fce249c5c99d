"""A log and what lies beside it, read and looked at as it grows."""

from __future__ import annotations

from hts.base.findings import Finding
from hts.record import faults, wrong_sheet
from hts.record.errors import RecordError
from hts.record.plan import Plan
from hts.record.reading import Options, read
from hts.record.record import Record
from hts.record.watch.growing import Growing
from hts.record.watch.look import look
from hts.record.watch.pace import Pace
from hts.record.watch.view import View


class Follow:
    """One log that is followed, from look to look."""

    def __init__(self, growing: Growing, options: Options) -> None:
        self._growing = growing
        self._options = options
        self._pace = Pace()

    def view(
        self,
        plan: Plan,
        now: float,
        today: str | None = None,
        errors: tuple[Finding, ...] = (),
    ) -> View:
        """What the log says `now`, s of a clock that is never set; to be asked after it changed.
        `errors` are those of the specification. Raises RecordError."""
        record, besides = self._read(plan)
        found = faults.find(record, plan)
        ahead = self._pace.ahead(record, now)
        besides = (*wrong_sheet.alarm(errors), *besides)
        return look(faults.apply(record, found), plan, found, today, ahead, besides)

    def _read(self, plan: Plan) -> tuple[Record, tuple[str, ...]]:
        """The record, and an alarm where notes of the run cannot be read: nobody is to stand
        without figures for a slip in them."""
        tags, options = plan.run.tags, self._options
        parts = self._growing.parts
        try:
            return read(parts, tags, options), ()
        except RecordError as error:
            if not self._growing.has_events and options.events is None:
                raise
            parts = self._growing.without_events()
            record = read(parts, tags, options._replace(events=None))
            place = f"{error.place}: " if error.place else ""
            return record, (
                f"the events of the run cannot be read, and none of them counts: {place}"
                f"{error.cause}; to do: {error.remedy}",
            )
