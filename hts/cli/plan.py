"""`hts plan`: which joints are heated together and when, as a proposal."""

from __future__ import annotations

import datetime
import os
import sys
from functools import partial

import click

from hts.base.quantities import TIME, Quantity
from hts.cli.completion import file_names
from hts.cli.configured import config_option, configuration
from hts.cli.folders import put, replace_option
from hts.cli.read import spec_at, time_of

_NOTHING = Quantity.of(0, "h", TIME)
#: As many errors of the text are told.
_TOLD = 5
_LEAST = Quantity.of(1, "h", TIME)


def _moment(ctx: click.Context, param: click.Parameter, text: str | None) -> object:
    if text is None:
        return None
    found = _read_moment(text)
    if found is None:
        raise click.BadParameter("write it as 2026-12-01 06:00", ctx, param)
    return found


@click.command("plan")
@click.argument("path", metavar="SPEC", shell_complete=file_names)
@click.option(
    "-o",
    "--output",
    "folder",
    metavar="DIR",
    help="Folder for plan.md, plan.csv, load.csv, plan.svg.",
)
@click.option(
    "--crews",
    type=click.IntRange(1, 999),
    help="Heats that can be looked after at once, at any hour; by default as the crews of the job "
    "are there, or any number.",
)
@click.option(
    "--set-up",
    callback=time_of(_NOTHING),
    default="3 h",
    metavar="TIME",
    help="Time to set a heat up; 3 h by default.",
)
@click.option(
    "--cool-off",
    callback=time_of(_NOTHING),
    default="3 h",
    metavar="TIME",
    help="Time to cool off and take down; 3 h by default.",
)
@click.option(
    "--shift",
    callback=time_of(_LEAST),
    default="12 h",
    metavar="TIME",
    help="Length of a shift; 12 h by default.",
)
@click.option(
    "--from",
    "begin",
    callback=_moment,
    metavar="MOMENT",
    help='When work can begin, as "2026-12-01 06:00"; days are counted without it.',
)
@click.option(
    "--ready",
    metavar="FILE.csv",
    help="When welding ends: a table with the heads `weld` and `ready`. Needs --from.",
)
@replace_option
@config_option
def command(
    path: str,
    folder: str | None,
    crews: int | None,
    set_up: Quantity,
    cool_off: Quantity,
    shift: Quantity,
    begin: datetime.datetime | None,
    ready: str | None,
    replace: bool,
    config: str | None,
) -> None:
    """Propose which joints share a machine and when each heat begins.

    Controllers, recorders, supplies, channels, circuits and power are those the specification
    states for each treatment; joints heated together stay together, a bake comes before the cycle,
    and with --ready a treatment that has to begin within a time from the end of welding does, as
    far as that is possible. Where preheat is kept until a treatment, the controller that keeps it
    is taken from the end of welding on; what that makes impossible is left out, and told why. It
    says the bounds it has proved. Nothing of the text is changed.

    Exits 0 when all is planned in time, 1 when something is late or cannot be planned, or the
    specification has errors, 2 when it could not run.
    """
    from hts.checking.checker.run import check_spec
    from hts.checking.report.terminal import printable
    from hts.cli.progress import doing
    from hts.job.compiler import CannotCompile, compile_spec
    from hts.language.model.shifts import shifts
    from hts.paper.sheet import MissingPackage
    from hts.plan.heats import heats
    from hts.plan.proposal import PROPOSAL, Plan, moment
    from hts.plan.propose import in_order, propose, too_long
    from hts.plan.timetable import Terms
    from hts.plan.work import gathered, too_much, units
    from hts.plan.written import files, summary

    if ready is not None and begin is None:
        raise click.UsageError("--ready needs --from: say when work can begin")
    spec = spec_at(path, configuration(path, config).defaults)
    with doing("checking the text"):
        findings = check_spec(spec)
    errors = [finding for finding in findings if finding.severity == "error"]
    if errors:
        count = f"{len(errors)} errors" if len(errors) > 1 else "an error"
        click.echo(f"nothing is planned: the text has {count}", err=True)
        for finding in errors[:_TOLD]:
            told = f"{finding.address}: {finding.message}".removeprefix(": ")
            click.echo(f"  {printable(told)}", err=True)
        if len(errors) > _TOLD:
            click.echo(f"  and {len(errors) - _TOLD} more", err=True)
        click.echo(f"run: hts check {printable(path)}", err=True)
        sys.exit(1)
    try:
        job = compile_spec(spec)
    except CannotCompile as error:
        click.echo(f"nothing is planned: {printable(error.reasons[0])}", err=True)
        sys.exit(1)
    every = units(job)
    known = {name for unit in every for name in unit.joints}
    stated = spec.file.job.crews if spec.file.job is not None and crews is None else ()
    terms = Terms(
        _seconds(set_up),
        _seconds(cool_off),
        crews,
        _ready(ready, begin, known),
        tuple(shifts(stated)),
        begin.hour * 3600 + begin.minute * 60 if begin is not None else 0,
    )
    reasons = [(unit, too_much(unit) or too_long(unit, terms)) for unit in every]
    left_out = gathered([(unit, reason) for unit, reason in reasons if reason])
    fitting = [unit for unit, reason in reasons if not reason]
    try:
        with doing(f"packing {len(fitting)} treatments into heats"):
            packed, least = heats(fitting, terms.ready)
        with doing(f"looking for the times of {len(packed)} heats"):
            table, unkept = propose(packed, terms, partial(moment, begin))
    except MissingPackage as error:
        raise click.ClickException(str(error)) from None
    except ValueError as error:
        raise click.ClickException(f"{error}; plan fewer joints at once") from None
    table = in_order(table, fitting, terms)
    left_out += unkept
    plan = Plan(job, table, least, left_out, terms, begin, _seconds(shift))
    for line in (PROPOSAL, *summary(plan)):
        click.echo(printable(line))
    if folder is not None:
        written = put(folder, files(plan), replace=replace, listed_in="plan.sha256")
        for name in written:
            click.echo(name.replace(os.sep, "/"))
    sys.exit(1 if left_out or table.late else 0)


def _seconds(time: Quantity) -> int:
    return int(time.to("s"))


def _read_moment(text: str) -> datetime.datetime | None:
    try:
        found = datetime.datetime.strptime(text.strip(), "%Y-%m-%d %H:%M")
    except ValueError:
        return None
    return found


def _ready(path: str | None, begin: datetime.datetime | None, known: set[str]) -> dict[str, int]:
    """Seconds from the begin of the plan by joint. Raises click.ClickException."""
    if path is None or begin is None:
        return {}
    from hts.base.text import BYTE_ORDER_MARK, Source
    from hts.base.text.reading import Unreadable, read_text
    from hts.checking.report.terminal import printable
    from hts.syntax.table import read_table

    def refuse(at: int, why: str) -> click.ClickException:
        line, column = source.position(at)
        return click.ClickException(f"{printable(f'{path}:{line}:{column}')}: {printable(why)}")

    try:
        source = Source(read_text(path).removeprefix(BYTE_ORDER_MARK), path)
    except Unreadable as error:
        raise click.ClickException(f"cannot read {printable(path)}: {error}") from None
    table = read_table(source, ",")
    for wrong in table.misforms:
        raise refuse(wrong.start, f"{wrong.message}; {wrong.help}")
    heads = [head.text for head in table.heads]
    if heads[:2] != ["weld", "ready"]:
        raise refuse(0, "the heads are not `weld` and `ready`")
    found: dict[str, int] = {}
    for row in table.rows:
        name, moment = row[0], _read_moment(row[1].text)
        if name.text not in known:
            raise refuse(name.start, f"no joint that is treated is named {name.text!r}")
        if name.text in found:
            raise refuse(name.start, f"{name.text} is there twice")
        if moment is None:
            raise refuse(row[1].start, f"{row[1].text!r} is not a moment such as 2026-12-01 06:00")
        found[name.text] = int((moment - begin).total_seconds())
    return found
