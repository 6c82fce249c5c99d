"""`hts record watch`: the run while it goes on."""

from __future__ import annotations

import os
import signal
import sys
import time
from collections.abc import Callable
from typing import TYPE_CHECKING

import click

from hts.base.quantities import TIME, Quantity
from hts.checking.report.terminal import printable
from hts.cli.configured import config_option
from hts.cli.read import time_of
from hts.cli.record.asked import job_of_a_run, options, reading_options, refuse, run_options, told
from hts.cli.terminal import coloured, width_of
from hts.cli.today import day

if TYPE_CHECKING:
    from hts.job.compiler.units import Units
    from hts.record.plan import Plan
    from hts.record.watch import Growing, View

_SHORTEST, _LONGEST = Quantity.of(1, "s", TIME), Quantity.of(1, "h", TIME)
#: Without a new row for so many intervals the recorder may have stopped.
_SILENT = 3


@click.command("watch")
@click.argument("spec", metavar="SPEC")
@click.argument("logs", metavar="LOG…", nargs=-1, required=True)
@run_options
@reading_options
@click.option(
    "--every",
    callback=time_of(_SHORTEST, _LONGEST),
    default="5 s",
    metavar="TIME",
    help="Time between two looks at the log; 5 s by default.",
)
@click.option("--once", is_flag=True, help="Look once, print the state, and stop.")
@click.option(
    "--today",
    metavar="DATE",
    default=None,
    help="Date of a record that states none; `now` for today.",
)
@click.option(
    "--format",
    "output_format",
    type=click.Choice(["text", "json"]),
    default="text",
    help="json: one object on one line for each look.",
)
@config_option
def command(
    spec: str,
    logs: tuple[str, ...],
    joint: str | None,
    cycle: str | None,
    every: Quantity,
    once: bool,
    today: str | None,
    output_format: str,
    config: str | None,
    **given: str | None,
) -> None:
    """Follow a log while the recorder writes it.

    It shows each thermocouple's reading, rate and distance to its limits, the hold clock and the
    time left, what comes next, and alarms in words.

    The last LOG is followed; those before it are read with it. The log may be emptied or replaced
    while it is followed, and the watch stopped and started again; one that is not there yet is
    waited for. The map and the events beside it are read with it, and again when they change. A
    specification with errors is followed all the same, with an alarm that says so. With --once:
    exits 0 without an alarm, 1 with one, 2 when it could not be read.
    """
    from hts.record.belonging import belonging
    from hts.record.errors import RecordError
    from hts.record.watch import Follow, Growing

    # Whoever ends it, by a key or by another program: the copy it works on goes with it.
    for name in ("SIGTERM", "SIGHUP"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), _ended)
    on = day(today)
    compiled, errors = job_of_a_run(spec, config, today)
    try:
        if not once:
            _wait(logs[-1], float(every.value))
        there = [log for log in logs if os.path.isfile(log)]
        asked, notes, _ = belonging(compiled, there, joint, cycle)
        for note in notes:
            click.echo(printable(note), err=True)
        reading = options(given)
        named = reading.mapping, reading.events
        with Growing(list(logs[:-1]), logs[-1], named) as growing:
            follow = Follow(growing, reading)

            def look() -> View:
                return follow.view(asked, time.monotonic(), on, errors)

            if once:
                growing.changed()
                view = look()
                _show(view, asked, output_format, whole=True)
                sys.exit(1 if view.alarms else 0)
            _follow(growing, look, asked, output_format, float(every.value))
    except RecordError as error:
        refuse(told(error))
    except KeyboardInterrupt:
        sys.exit(0)


def _ended(number: int, frame: object) -> None:
    sys.exit(128 + number)


def _wait(path: str, seconds: float) -> None:
    """Until the recorder has begun its log."""
    if os.path.exists(path):
        return
    click.echo(f"waiting for {printable(path)}: it is not there yet", err=True)
    while not os.path.exists(path):
        time.sleep(seconds)


def _follow(
    growing: Growing, look: Callable[[], View], asked: Plan, output_format: str, seconds: float
) -> None:
    """Until it is stopped. What cannot be read now, a log without a row yet, may be later."""
    from hts.record.errors import NoRows, RecordError

    known: tuple[str, ...] = ()
    grown, view, waited = time.monotonic(), None, False
    while True:
        if growing.changed():
            grown, waited = time.monotonic(), False
            try:
                view = look()
            except NoRows:
                click.echo(f"{printable(growing.name)} has no row yet", err=True)
                time.sleep(seconds)
                continue
            except RecordError as error:
                click.echo(told(error), nl=False, err=True)
                time.sleep(seconds)
                continue
            _show(view, asked, output_format, known=known)
            known = view.alarms
        elif view is not None and not waited:
            silent = time.monotonic() - grown
            interval = view.elapsed / max(1, view.readings - 1)
            if silent > _SILENT * max(interval, seconds):
                click.echo(f"no new row since {view.clock}: is the recorder writing?", err=True)
                waited = True
        time.sleep(seconds)


def _show(
    view: View, asked: Plan, output_format: str, *, whole: bool = False, known: tuple[str, ...] = ()
) -> None:
    """The whole view on a terminal; elsewhere what is new, a line each."""
    from hts.record.watch import screen

    units = asked.job.units
    if output_format == "json":
        click.echo(screen.line(view), nl=False)
    elif whole:
        click.echo(_screen(view, units), nl=False)
    elif sys.stdout.isatty():
        click.clear()
        click.echo(_screen(view, units), nl=False)
    else:
        for alarm in screen.new(view.alarms, known):
            click.echo(f"{view.clock} ALARM {printable(alarm)}")
        if known and not view.alarms:
            click.echo(f"{view.clock} alarm cleared")
    sys.stdout.flush()


def _screen(view: View, units: Units) -> str:
    from hts.record.watch import screen

    return screen.text(view, units, colour=coloured(sys.stdout), width=width_of(sys.stdout))
