"""`hts check`: what is wrong with specifications."""

from __future__ import annotations

import sys

import click

from hts.check.files import check_paths
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
def command(paths: tuple[str, ...], form: str, today: str | None, stdin_path: str | None) -> None:
    """Check specifications: files, folders (all *.hts below), or - for standard input.

    Exits 0 when there is no error or warning, 1 when there is, 2 when it could not run.
    """
    try:
        results = check_paths(paths, today=_day(today), stdin_path=stdin_path)
    except OSError as error:
        raise click.ClickException(str(error)) from None
    report = json_report if form == "json" else terminal
    click.echo(report.write(results, colour=sys.stdout.isatty()), nl=False)
    sys.exit(results.exit_code)


def _day(today: str | None) -> str | None:
    if today != "now":
        return today
    import datetime

    return datetime.date.today().isoformat()
