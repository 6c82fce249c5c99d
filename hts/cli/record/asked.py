"""What the commands on records have in common: the job, the run of it, how a log is read."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any, NoReturn, TypeVar

import click

from hts.base.findings import Finding
from hts.checking.checker.results import PackError, Results
from hts.checking.checker.run import check_spec
from hts.checking.report import terminal
from hts.cli.configured import configuration
from hts.cli.read import spec_at
from hts.cli.terminal import coloured, width_of
from hts.cli.today import day
from hts.job.compiler import CannotCompile, Job, compile_spec
from hts.language.model import Spec

if TYPE_CHECKING:
    from hts.record.errors import RecordError
    from hts.record.reading import Options

F = TypeVar("F", bound=Callable[..., Any])

COULD_NOT = 2

#: Option, parameter, its values or None, and help. The parameters are those of Options.
_READING: tuple[tuple[str, str, tuple[str, ...] | None, str], ...] = (
    ("--unit", "unit", ("degC", "degF", "K"), "Unit of temperature in columns that state none."),
    ("--time", "time", None, 'Name of the time column, or of two as "Date, Time".'),
    (
        "--time-unit",
        "time_unit",
        ("s", "ms", "min", "h", "d", "hh:mm", "mm:ss", "serial", "unix"),
        "Unit of a time column that is a number: serial is days as in spreadsheets, unix is s "
        "since 1970.",
    ),
    ("--day-order", "day_order", ("day", "month"), "What comes first in 03/04/2026."),
    ("--zone", "zone", None, "Time zone of clock times that state none: Europe/Oslo, +01:00."),
    ("--separator", "separator", None, "Sign between columns: , ; tab | or blanks."),
    ("--decimal", "decimal", (".", ","), "Decimal mark."),
    ("--columns", "mapping", None, "YAML file that maps thermocouples to columns."),
    ("--events", "events", None, "YAML file that lists what happened during the run."),
)


def reading_options(command: F) -> F:
    """Adds the options on how a log is read; `options` makes Options of their values."""
    for flag, name, values, help in reversed(_READING):
        kind = click.Choice(values) if values is not None else click.STRING
        metavar = None if values is not None else name.upper()
        command = click.option(flag, name, type=kind, metavar=metavar, default=None, help=help)(
            command
        )
    return command


def run_options(command: F) -> F:
    """Adds the options that say which run of a specification a record is of."""
    for flag, help in (
        ("--cycle", "Treatment that was recorded: the name of a cycle, bake or preheat."),
        ("--joint", "Joint that was recorded, where the specification has several."),
    ):
        command = click.option(flag, metavar="NAME", default=None, help=help)(command)
    return command


def options(given: dict[str, str | None]) -> Options:
    """The reading options out of the parameters of a command."""
    from hts.record.reading import Options

    return Options(**{name: given[name] for _, name, _, _ in _READING})


def job(path: str, today: str | None, config: str | None) -> Job:
    """The compiled job of a specification, the one `hts compile` makes with the same configuration;
    ends the program where it has errors or gaps."""
    spec, results = _checked(path, today, config)
    if _errors(results.findings):
        told = terminal.write(results, colour=coloured(sys.stderr), width=width_of(sys.stderr))
        refuse(f"{told}nothing was done: the specification has errors\n")
    return _compiled(spec)


def job_of_a_run(
    path: str, config: str | None, today: str | None = None
) -> tuple[Job, tuple[Finding, ...]]:
    """The compiled job a run was made to, and the errors of its specification: the run is judged
    by what the sheet said, and watched by it. Ends the program where that cannot be known, for its
    text has errors of the language."""
    spec, results = _checked(path, today, config)
    if _errors(spec.findings):
        told = terminal.write(results, colour=coloured(sys.stderr), width=width_of(sys.stderr))
        refuse(f"{told}nothing was judged: what the specification says cannot be made out\n")
    return _compiled(spec), _errors(results.findings)


def _checked(path: str, today: str | None, config: str | None) -> tuple[Spec, Results]:
    configured = configuration(path, config)
    spec = spec_at(path, configured.defaults)
    results = Results()
    results.checked.append(spec.source.name)
    try:
        results.findings += check_spec(spec, day(today), configured.setting)
    except PackError as error:
        raise click.ClickException(str(error)) from None
    return spec, results


def _errors(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(finding for finding in findings if finding.severity == "error")


def _compiled(spec: Spec) -> Job:
    try:
        return compile_spec(spec)
    except CannotCompile as error:
        reasons = "".join(f"{terminal.printable(reason)}\n" for reason in error.reasons)
        refuse(f"{reasons}nothing was done: state these values, or name a rule that gives them\n")


def told(error: RecordError) -> str:
    """An error of a record in lines fit for a terminal."""
    place = f"{terminal.printable(error.place)}: " if error.place else ""
    return f"{place}{terminal.printable(error.cause)}\n  help: {terminal.printable(error.remedy)}\n"


def refuse(text: str) -> NoReturn:
    """Says why nothing could be done, and ends the program."""
    click.echo(text, nl=False, err=True)
    sys.exit(COULD_NOT)
