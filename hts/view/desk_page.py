"""A run while it goes on, for the desk in the container: figures that are read from two metres."""

from __future__ import annotations

import threading
import time as clock_time
from typing import TYPE_CHECKING

from hts.checking.checker.fault import fault
from hts.view import desk_alarms
from hts.view.desk_map import desk_map
from hts.view.desk_words import is_named, rate, reading, state
from hts.view.findings import Leads
from hts.view.frame import Section
from hts.view.markup import Html, Part, html, items, tag
from hts.view.shelf import Shelf

if TYPE_CHECKING:
    from hts.record.judging.words import Words
    from hts.record.plan import Plan
    from hts.record.reading import Options
    from hts.record.watch import Growing, View

#: Without a new row for so many intervals the recorder may have stopped.
_SILENT = 3


class Desk:
    """The growing record of a run, looked at again no sooner than after `seconds`.

    `run` names joint and cycle where the text has several.
    """

    name = "desk"
    title = "The run now"
    every = 1000
    body_class: str | None = "desk"
    bar: Html | None = tag(
        "div",
        tag("button", "Sound is off", data_sound=True, type="button", aria_pressed="false"),
        " It sounds when a new alarm comes.",
        class_="bar",
        role="region",
        aria_label="Sound",
    )

    def __init__(
        self,
        shelf: Shelf,
        key: str,
        growing: Growing,
        options: Options,
        run: tuple[str | None, str | None],
        seconds: float,
    ) -> None:
        from hts.record.watch import Follow

        self._shelf, self._key = shelf, key
        self._growing, self._follow, self._run = growing, Follow(growing, options), run
        self._seconds = seconds
        self._lock = threading.Lock()
        self._looked = 0.0
        self._grown = clock_time.monotonic()
        self._view: View | None = None
        self._plan: Plan | None = None
        self._of = 0
        self._why = "no look at the log yet"
        self._spec = ""
        self._said = 0
        self._number = 0

    def state(self) -> str:
        """Another word after each look that saw something else, when the log falls silent, and when
        the specification can no longer be made out, or can be again."""
        self._look()
        return f"{self._number}-{int(bool(self._silent()))}-{self._said}"

    def head(self) -> Html:
        """Which run, and whether the figures are fresh."""
        from hts.record.watch.alike import alike

        view = self._view
        title = f"{view.title}" if view is not None else "The run"
        simulated = view is not None and view.simulated
        notes = [n for n in dict.fromkeys((self._spec, self._why, self._silent())) if n]
        return html(
            tag("h1", title),
            tag("p", "SIMULATED: this is not the record of a real run", class_="notice")
            if simulated
            else None,
            *(
                tag("p", tag("strong", f"▲ {note}"), class_="notice large", data_alarm=alike(note))
                for note in notes
            ),
        )

    def sections(self, leads: Leads) -> list[Section]:
        """Alarms first, then the clock of the hold, the zones, more alarms, the map."""
        view, plan = self._view, self._plan
        if view is None or plan is None:
            return []
        from hts.record.judging.words import Words

        words = Words(plan.job.units)
        more = desk_alarms.lines(view, first=False)
        return [
            Section("alarms", desk_alarms.count(view), desk_alarms.lines(view, first=True),
                    "alarms" if view.alarms else None),
            Section("now", "Now", _now(view)),
            Section("zones", "Zones", _zones(view, words)),
            *([Section("more-alarms", "More alarms", more, "alarms")] if more else ()),
            Section("map", "On the joint unrolled", desk_map(plan, view, words), "map"),
        ]  # fmt: skip

    def _silent(self) -> str:
        view = self._view
        if view is None:
            return ""
        silent = clock_time.monotonic() - self._grown
        interval = view.elapsed / max(1, view.readings - 1)
        if silent <= _SILENT * max(interval, self._seconds):
            return ""
        return f"no new row since {view.clock}: is the recorder writing?"

    def _look(self) -> None:
        """Looks at the log, once for all pages that ask."""
        from hts.record import wrong_sheet
        from hts.record.belonging import belonging
        from hts.record.errors import RecordError

        with self._lock:
            now = clock_time.monotonic()
            if self._looked and now - self._looked < self._seconds:
                return
            self._looked = now
            number, checked = self._shelf.checked(self._key)
            job, reasons = checked.of_a_run
            errors = tuple(checked.errors)
            told = "" if self._view is not None else "; ".join(wrong_sheet.alarm(errors))
            if job is None:
                told = f"the specification cannot be compiled: {'; '.join(reasons)}; "
                told += "what stands here is held to the text before that"
            self._said += told != self._spec
            self._spec = told
            other = job is not None and number != self._of
            try:
                grown = self._growing.changed()
                if not grown and not other:
                    return
                self._grown = now if grown else self._grown
                self._number += 1
                if job is not None and other:
                    self._plan = belonging(job, self._growing.parts, *self._run).plan
                    self._of = number
                if self._plan is None:
                    self._why = self._spec
                    return
                self._view = self._follow.view(self._plan, now, checked.configured.today, errors)
                self._why = ""
                if job is not None:
                    self._spec = ""  # the errors are the first of its alarms now
            except RecordError as error:
                self._why = f"the log cannot be read: {error.cause}; {error.remedy}"
            except Exception as error:
                self._why = f"the log cannot be judged: {fault(error)}"


def _now(view: View) -> Html:
    from hts.record.judging.words import time

    day, _, clock = view.clock.rpartition(" ")
    parts: list[Part] = [_figure(f"Time of the record {day}".strip(), clock)]
    if view.counted is not None:
        required = f" of {time(view.required)}" if view.required is not None else ""
        parts.append(_figure(f"Hold clock{required}: {view.clock_state}", time(view.counted)))
        if view.left:
            ends = f", complete at {view.ends}" if view.ends else ""
            parts.append(_figure(f"Left{ends}", time(view.left)))
    lines = [f"Now: {view.phase}"]
    lines += [f"Why the clock stands: {view.stands}"] if view.stands else []
    lines += [f"Step: {view.step}"] if view.step else []
    lines.append(f"Next: {view.next}")
    return html(
        tag("div", *parts, class_="clock"),
        tag("div", *(tag("p", line, class_="large") for line in lines), class_="steps"),
    )


def _figure(about: str, figure: str) -> Html:
    return tag("div", tag("div", about), tag("div", figure, class_="figure"))


def _large(figure: str) -> Html:
    """The number large and its unit small beside it, so that a card holds both."""
    number, blank, unit = figure.rpartition(" ")
    if not any(letter.isdigit() for letter in number):
        return html(figure)
    return html(number, blank, tag("span", unit, class_="unit"))


def _zones(view: View, words: Words) -> Html:
    """Each zone with the thermocouple that controls it, and beside it the others."""
    names = dict.fromkeys(row.zone for row in view.rows)
    return tag("div", *(_zone(view, name, words) for name in names), class_="zones")


def _zone(view: View, name: str, words: Words) -> Html:
    rows = [row for row in view.rows if row.zone == name]
    first = next((row for row in rows if row.duty == "controls"), rows[0])
    off = [row for row in rows if is_named(row, view)]
    others = (
        html(tag("strong", row.tag), f" {reading(row, words)}", f" {row.place}", state(row, view))
        for row in rows
        if row is not first
    )
    return tag(
        "div",
        tag("h3", f"Zone {name}" if name else "Of no zone"),
        tag("p", f"{first.tag} {first.duty}, {first.place}"),
        tag("p", _large(reading(first, words)), class_="figure"),
        tag("p", rate(first, words), state(first, view), class_="large"),
        items(others),
        class_="zone off" if off else "zone",
    )
