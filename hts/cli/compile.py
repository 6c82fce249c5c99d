"""`hts compile`: the papers of a specification."""

from __future__ import annotations

import os
import sys

import click

from hts.check.files import Failure, Results
from hts.check.run import check_spec
from hts.cli.today import day
from hts.compile import CannotCompile, compile_spec
from hts.compile.assumed import INTERVAL
from hts.model import Loader, Spec
from hts.model.load import Unreadable, root_of
from hts.outputs import files, write
from hts.outputs.files import NAMES
from hts.quantities import TIME, Quantity, QuantityError
from hts.report import terminal

_SHORTEST = Quantity.of(1, "min", TIME)


def _interval(ctx: click.Context, param: click.Parameter, text: str) -> Quantity:
    """The time an option gives."""
    try:
        every = Quantity.read(text, TIME)
    except QuantityError as error:
        raise click.BadParameter(str(error), ctx, param) from None
    if every < _SHORTEST:
        raise click.BadParameter(f"at least {_SHORTEST}", ctx, param)
    return every


@click.command("compile")
@click.argument("path", metavar="SPEC")
@click.option(
    "-o",
    "--output",
    "folder",
    required=True,
    metavar="DIR",
    help="Folder the files go into; made where it is missing.",
)
@click.option(
    "--every",
    callback=_interval,
    default=str(INTERVAL),
    metavar="TIME",
    help="Time between two lines of the schedule; 5 min unless said.",
)
@click.option(
    "--today",
    metavar="DATE",
    default=None,
    help="Day waivers and calibrations are judged on; `now` for the clock's day.",
)
def command(path: str, folder: str, every: Quantity, today: str | None) -> None:
    """Compile a specification into setpoint tables, thermocouple tag sheets and one file with
    every value and its reason.

    All files are written, or none. Exits 0 when they are, 1 when the specification has errors or
    leaves a value open, 2 when it could not run.
    """
    spec = _read(path)
    results = Results()
    results.checked.append(spec.source.name)
    results.findings += check_spec(spec, day(today))
    if any(finding.severity == "error" for finding in results.findings):
        _say(terminal.write(results, colour=sys.stderr.isatty()))
        _say("nothing was written: the specification has errors\n")
        sys.exit(1)
    try:
        made = files(compile_spec(spec, every))
    except CannotCompile as error:
        for reason in error.reasons:
            _say(f"{terminal.printable(reason)}\n")
        _say("nothing was written: state these values, or a rule that gives them\n")
        sys.exit(1)
    try:
        written = write(folder, made, NAMES)
    except OSError as error:
        _say(
            f"cannot write into {terminal.printable(folder)}: "
            f"{(error.strerror or str(error)).lower()}\n"
        )
        sys.exit(2)
    open_ones = sum(1 for finding in results.findings if finding.severity == "warning")
    if open_ones:
        _say(
            f"{open_ones} warning{'s' if open_ones > 1 else ''} open: run hts check "
            f"{terminal.printable(path)}\n"
        )
    for name in written:
        click.echo(name.replace(os.sep, "/"))


def _read(path: str) -> Spec:
    """The specification at a path; ends the program where there is none to read."""
    loader = Loader(root_of(path))
    try:
        return Spec(loader.read(path), loader)
    except Unreadable as error:
        results = Results()
        results.failures.append(Failure(path, str(error)))
        _say(terminal.write(results, colour=False))
        sys.exit(2)


def _say(text: str) -> None:
    click.echo(text, nl=False, err=True)
