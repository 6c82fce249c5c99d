"""`hts record simulate`: a record of a run that never was, for training and trials."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import click

from hts.base.quantities import TIME, Quantity
from hts.checking.report.terminal import printable
from hts.cli.configured import config_option
from hts.cli.read import time_of
from hts.cli.record.asked import job, refuse, run_options, told
from hts.job.outputs import write

if TYPE_CHECKING:
    from datetime import datetime

    from hts.record.plan import Plan

_SHORTEST = Quantity.of(1, "s", TIME)
_LONGEST = Quantity.of(10, "min", TIME)
_MINUTE = 60.0


def _listed(ctx: click.Context, param: click.Parameter, asked: bool) -> None:
    """What can be put in, one line each."""
    if not asked:
        return
    from hts.record.simulation import DEPARTURES, WIRING
    from hts.record.simulation.wiring import OF_THE_RECORD

    width = max(map(len, (*DEPARTURES, *WIRING, *OF_THE_RECORD)))
    faults = {kind: one.summary for kind, one in WIRING.items()} | OF_THE_RECORD
    for option, kinds in (("--departure", DEPARTURES), ("--fault", faults)):
        click.echo(option)
        for name, summary in kinds.items():
            click.echo(f"  {name:{width}}  {summary}")
    ctx.exit()


@click.command("simulate")
@click.argument("spec", metavar="SPEC")
@click.option(
    "-o",
    "--output",
    "path",
    required=True,
    metavar="LOG",
    help="File for the record; - for standard output.",
)
@run_options
@click.option(
    "--seed",
    type=click.IntRange(min=0, max=2**32 - 1),
    default=1,
    help="Seed of the random noise; the same seed gives the same record.",
)
@click.option(
    "--every",
    callback=time_of(_SHORTEST, _LONGEST),
    default=None,
    metavar="TIME",
    help="Time between two rows; that of the recorder by default, or 60 s.",
)
@click.option(
    "--start",
    metavar="WHEN",
    default=None,
    help="Clock time of the first row, such as 2026-11-24T06:00, or `none` to count from zero; "
    "6:00 on the day of the revision by default.",
)
@click.option(
    "--departure",
    "departures",
    multiple=True,
    metavar="KIND",
    help="Something that goes wrong with the cycle; may be repeated.",
)
@click.option(
    "--fault",
    "faults",
    multiple=True,
    metavar="KIND[=TAG]",
    help="Something that goes wrong in one measuring chain; may be repeated.",
)
@click.option(
    "--kinds",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_listed,
    help="List the departures and faults, and stop.",
)
@config_option
def command(
    spec: str,
    path: str,
    joint: str | None,
    cycle: str | None,
    seed: int,
    every: Quantity | None,
    start: str | None,
    departures: tuple[str, ...],
    faults: tuple[str, ...],
    config: str | None,
) -> None:
    """Write a plausible record of a cycle that was never run, for training and trials.

    It comes from a lumped thermal model of each zone, with noise. Its first line says that it is
    simulated. The same request gives the same file.
    """
    from hts.record.errors import RecordError
    from hts.record.plan import plan
    from hts.record.simulation import Ask, simulate

    compiled = job(spec, None, config)
    try:
        run = plan(compiled, joint, cycle)
        asked = Ask(
            seed,
            _interval(every, run),
            _clock(start, compiled.document.dated),
            departures,
            tuple(_fault(text) for text in faults),
        )
        text = simulate(run, asked)
    except RecordError as error:
        refuse(told(error))
    if path == "-":
        click.echo(text, nl=False)
        return
    _keep_real_records(path)
    try:
        write(os.path.dirname(path) or ".", {os.path.basename(path): text.encode()})
    except OSError as error:
        refuse(f"cannot write {printable(path)}: {(error.strerror or str(error)).lower()}\n")
    click.echo(printable(path))


def _interval(every: Quantity | None, run: Plan) -> float:
    recorder = run.run.program.recorder
    stated = recorder.interval if recorder is not None else None
    chosen = every or stated
    return float(chosen.value) if chosen is not None else _MINUTE


def _fault(text: str) -> tuple[str, str]:
    kind, _, tag = text.partition("=")
    return kind, tag


def _clock(start: str | None, dated: str) -> datetime | None:
    from datetime import datetime

    if start == "none" or (start is None and not dated):
        return None
    try:
        return datetime.fromisoformat(start or f"{dated}T06:00")
    except ValueError:
        raise click.BadParameter(
            f"{start!r} is not a time; write 2026-11-24T06:00, or none", param_hint="--start"
        ) from None


def _keep_real_records(path: str) -> None:
    """Ends the program rather than write over a file that is not simulated."""
    from hts.record.simulation.simulate import SIMULATED

    if not os.path.exists(path):
        return
    try:
        with open(path, "rb") as file:
            simulated = file.read(len(SIMULATED)) == SIMULATED.encode()
    except OSError:
        simulated = False
    if not simulated:
        refuse(
            f"{printable(path)} exists and is not a simulated record, so it is not overwritten; "
            f"name another file\n"
        )
