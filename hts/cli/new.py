"""`hts new`: a first specification from a few answers."""

from __future__ import annotations

import os
import sys

import click

from hts.base.leftovers import is_there, put_new
from hts.checking.checker.check_paths import SUFFIX, Results
from hts.checking.report import terminal
from hts.checking.report.terminal import printable
from hts.cli.starter import (
    AXES,
    BOOKS,
    FAMILIES,
    KINDS,
    METHODS,
    UNITS,
    CannotStart,
    Choices,
    started,
)
from hts.cli.terminal import coloured, width_of
from hts.cli.today import day

_MATERIALS = {name: family.title for name, family in FAMILIES.items()}
#: Option, what is asked, what is offered, what is taken when nothing is said.
_QUESTIONS = (
    ("kind", "Weld", tuple(KINDS), "butt"),
    ("material", "Material", tuple(_MATERIALS), "2.25Cr"),
    ("nps", "Nominal pipe size (NPS 12 or DN 300)", None, "12"),
    ("schedule", "Schedule", None, "120"),
    ("method", "Heated by", METHODS, "resistance"),
    ("book", "Code", tuple(BOOKS), "asme-b31.3"),
    ("axis", "The pipe lies", AXES, "horizontal"),
    ("units", "System of units", UNITS, "SI"),
    ("number", "Document number", None, "HT-0001"),
    ("joint", "Name of the weld, or of several: W1, W2", None, "W1"),
)
#: What is asked of some kinds of weld alone.
_OF_KIND = {
    "branch": (
        ("run", "Nominal size of the pipe it stands on", None, "16"),
        ("run_schedule", "Schedule of that pipe", None, "100"),
    ),
    "nozzle": (
        ("shell", "Outside diameter of the shell (1200 mm or 48 in)", None, "1200 mm"),
        ("shell_wall", "Wall of the shell (25 mm or 1 in)", None, "25 mm"),
    ),
}


@click.command("new")
@click.argument("path", metavar="[FILE.hts]", required=False)
@click.option(
    "--weld-list",
    "table",
    metavar="FILE.csv",
    help="Propose the weld list of a table instead, every column still `not used`.",
)
@click.option("--kind", type=click.Choice(tuple(KINDS)), help="Kind of weld; butt by default.")
@click.option("--run", metavar="SIZE", help="Of a branch: nominal size of the pipe it stands on.")
@click.option("--run-schedule", metavar="NAME", help="Of a branch: schedule of that pipe.")
@click.option("--shell", metavar="LENGTH", help="Of a nozzle: outside diameter of the shell.")
@click.option("--shell-wall", metavar="LENGTH", help="Of a nozzle: wall of the shell.")
@click.option("--bake", is_flag=True, help="With a hydrogen bake-out after welding.")
@click.option("--material", type=click.Choice(list(_MATERIALS)), help="Family of steels.")
@click.option("--nps", metavar="SIZE", help="Nominal pipe size: 12, 1 1/2, or DN 300.")
@click.option("--schedule", metavar="NAME", help="Schedule: 40, XS, 160.")
@click.option("--method", type=click.Choice(METHODS), help="How the weld is heated.")
@click.option("--book", type=click.Choice(list(BOOKS)), help="The code that governs.")
@click.option("--axis", type=click.Choice(AXES), help="How the pipe lies.")
@click.option("--units", type=click.Choice(UNITS), help="System of units.")
@click.option("--number", metavar="TEXT", help="Document number.")
@click.option("--joint", metavar="NAME", help="Name of the weld, or several: W1,W2.")
@click.option("--title", metavar="TEXT", default="", help="Title; by the kind of weld unless said.")
@click.option(
    "--date",
    metavar="DATE",
    default="now",
    help="Day of issue; today by default.",
)
def command(
    path: str | None,
    table: str | None,
    date: str,
    title: str,
    bake: bool,
    **given: str | None,
) -> None:
    """Write a first specification from a few answers.

    It is complete and without a finding, to be made the job's own: of a girth butt weld, a branch,
    a nozzle or a socket weld, or several alike. What no option says is asked on a terminal;
    elsewhere a usual value is taken.

    With --weld-list the block for a table is proposed from its heads, to be put into a
    specification; without FILE it is printed. Every column is `not used` until somebody who knows
    the table says what it is.

    FILE must not exist; - is standard output. Exits 0 when it is written, 2 when it is not.
    """
    if table is not None:
        path = path or "-"
        _refuse(path)
        _put(path, _proposed(table, path))
        return
    if path is None:
        raise click.UsageError("name the file to write: hts new FILE.hts")
    _refuse(path)
    answers = {
        name: given[name] or _asked(question, offered, usual)
        for name, question, offered, usual in _QUESTIONS
    }
    for name, question, offered, usual in _OF_KIND.get(answers["kind"], ()):
        answers[name] = given[name] or _asked(question, offered, usual)
    stray = [name for of in _OF_KIND.values() for name, *_ in of if given[name]]
    if stray and not set(stray) <= set(answers):
        raise click.UsageError(
            f"--{stray[0].replace('_', '-')} is not for a {KINDS[answers['kind']]}; "
            "say the kind with --kind"
        )
    choices = Choices(day=day(date, "--date") or "", title=title, bake=bake, **answers)
    try:
        text = started(choices)
    except CannotStart as error:
        if error.findings:
            results = Results()
            results.findings = error.findings
            click.echo(
                terminal.write(results, colour=coloured(sys.stderr), width=width_of(sys.stderr)),
                nl=False,
                err=True,
            )
        raise click.ClickException(f"{printable(str(error))}; nothing was written") from None
    _put(path, text)


def _proposed(table: str, path: str) -> str:
    """The block for a table, its path as seen from the file to write."""
    from hts.base.text.reading import Unreadable, read_text
    from hts.cli.starter.weld_list import CannotPropose, proposed

    folder = os.path.dirname(os.path.abspath(path)) if path != "-" else os.getcwd()
    named = os.path.relpath(os.path.abspath(table), folder).replace(os.sep, "/")
    try:
        block = proposed(read_text(table), named)
    except Unreadable as error:
        raise click.ClickException(f"cannot read {printable(table)}: {error}") from None
    except CannotPropose as error:
        raise click.ClickException(f"{printable(table)}: {printable(str(error))}") from None
    return block if path == "-" else f"spec 1\n\n{block}"


def _put(path: str, text: str) -> None:
    if path == "-":
        click.echo(text, nl=False)
        return
    try:
        put_new(path, text.encode("utf-8"))
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise click.ClickException(f"cannot write {printable(path)}: {reason}") from None
    click.echo(f"wrote {printable(path)}; next: hts check {printable(path)}")


def _refuse(path: str) -> None:
    """Raises click.ClickException for a path nothing may be written to, before any question."""
    if path == "-":
        return
    if not path.endswith(SUFFIX):
        raise click.ClickException(f"{printable(path)} does not end in {SUFFIX}")
    if is_there(path):
        raise click.ClickException(f"{printable(path)} already exists; nothing was written")


def _asked(question: str, offered: tuple[str, ...] | None, usual: str) -> str:
    if not sys.stdin.isatty():
        return usual
    kind = click.Choice(offered) if offered else str
    answer: str = click.prompt(question, default=usual, type=kind, err=True)
    return answer
