"""`hts check`: what is wrong with specifications."""

from __future__ import annotations

import sys

import click

from hts.check.files import check_paths
from hts.cli.today import day
from hts.report import json_report, terminal


@click.command("check")
@click.argument("paths", nargs=-1, required=True, metavar="PATH…")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    help="How findings are written.",
)
@click.option(
    "--today",
    metavar="DATE",
    default=None,
    help="Day waivers and calibrations are judged on; `now` for the clock's day.",
)
@click.option(
    "--stdin-path",
    metavar="PATH",
    default=None,
    help="Where the text read from standard input belongs.",
)
@click.option(
    "--jobs",
    metavar="N",
    type=click.IntRange(min=1),
    default=None,
    help="Processes to check with; every core when not said and there are many files.",
)
def command(
    paths: tuple[str, ...],
    form: str,
    today: str | None,
    stdin_path: str | None,
    jobs: int | None,
) -> None:
    """Check specifications: files, folders (all *.hts below), or - for standard input.

    Exits 0 when there is no error or warning, 1 when there is, 2 when it could not run.
    """
    try:
        results = check_paths(paths, today=day(today), stdin_path=stdin_path, jobs=jobs)
    except OSError as error:
        raise click.ClickException(str(error)) from None
    report = json_report if form == "json" else terminal
    click.echo(report.write(results, colour=sys.stdout.isatty()), nl=False)
    sys.exit(results.exit_code)
