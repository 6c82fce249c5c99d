"""`hts view`: specifications and runs as pages in the browser."""

from __future__ import annotations

import os
import sys
from contextlib import ExitStack
from typing import TYPE_CHECKING

import click

from hts.base.quantities import TIME, Quantity
from hts.checking.report.terminal import printable
from hts.cli.completion import file_names
from hts.cli.configured import config_option
from hts.cli.folders import put, replace_option
from hts.cli.read import time_of
from hts.cli.record.asked import options, reading_options, run_options

if TYPE_CHECKING:
    from hts.view.shelf import Shelf
    from hts.view.site import RunPage

_SHORTEST, _LONGEST = Quantity.of(1, "s", TIME), Quantity.of(1, "h", TIME)


@click.command("view")
@click.argument("path", metavar="[PATH]", default=".", shell_complete=file_names)
@click.option("--no-open", is_flag=True, help="Print the address and open no browser.")
@click.option(
    "--export",
    "folder",
    metavar="FOLDER",
    default=None,
    help="Write each page into a file of its own, without script, for phones and tablets.",
)
@click.option(
    "--reading",
    type=click.Choice(["technician", "supervisor", "inspector"]),
    default="supervisor",
    help="Whose reading --export writes: what stands first.",
)
@click.option(
    "--predict",
    is_flag=True,
    help="Let --export also tell what is predicted inside the wall, where no text asks for it.",
)
@replace_option
@click.option(
    "--record",
    "records",
    metavar="LOG",
    multiple=True,
    help="Show this record, judged, beside the specification; may be repeated.",
)
@click.option(
    "--watch",
    "watched",
    metavar="LOG",
    multiple=True,
    help="Follow this log while the recorder writes it; the last of several is followed.",
)
@click.option(
    "--every",
    callback=time_of(_SHORTEST, _LONGEST),
    default="5 s",
    metavar="TIME",
    help="Time between two looks at the log of --watch; 5 s by default.",
)
@click.option(
    "--out",
    default="out",
    metavar="FOLDER",
    help="Where papers are compiled to, to tell whether they are current; out by default.",
)
@run_options
@reading_options
@config_option
def command(
    path: str,
    no_open: bool,
    folder: str | None,
    reading: str,
    predict: bool,
    replace: bool,
    records: tuple[str, ...],
    watched: tuple[str, ...],
    every: Quantity,
    out: str,
    joint: str | None,
    cycle: str | None,
    config: str | None,
    **given: str | None,
) -> None:
    """Look at specifications and runs in the browser, beside any editor.

    PATH is a file or a folder. The pages follow each save. They are served on this machine alone,
    under an address nobody can guess, and only read. End with Ctrl-C.
    """
    from hts.view.server import Server
    from hts.view.shelf import Shelf
    from hts.view.site import Site

    if not os.path.exists(path):
        raise click.ClickException(f"there is no file or folder {printable(path)}")
    if folder is not None and (records or watched):
        raise click.UsageError("--export is for specifications: leave --record and --watch out")
    if predict and folder is None:
        raise click.UsageError(
            "--predict goes with --export: in the browser, each page leads there"
        )
    shelf = Shelf(path, out, config)
    if folder is not None:
        _export(shelf, folder, reading, joint, predict, replace)
        return
    if (records or watched) and os.path.isdir(path):
        raise click.UsageError("--record and --watch need the specification of the run: name it")
    with ExitStack() as stack:
        runs: dict[str, RunPage] = {}
        if records:
            from hts.view.record_page import JudgedRecord

            record = JudgedRecord(shelf, shelf.keys[0], records, options(given), joint, cycle)
            runs[record.name] = record
        if watched:
            from hts.record.watch import Growing
            from hts.view.desk_page import Desk

            asked = options(given)
            named = asked.mapping, asked.events
            growing = stack.enter_context(Growing(list(watched[:-1]), watched[-1], named))
            seconds = float(every.value)
            run = (joint, cycle)
            desk = Desk(shelf, shelf.keys[0], growing, asked, run, seconds)
            runs = {desk.name: desk, **runs}
        server = stack.enter_context(Server(Site(shelf, runs)))
        click.echo(server.address)
        sys.stdout.flush()
        if not no_open:
            import webbrowser

            webbrowser.open(server.address)
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            sys.exit(0)


def _export(
    shelf: Shelf, folder: str, reading: str, joint: str | None, predict: bool, replace: bool
) -> None:
    """Each text as a file of its own: all are written, or none."""
    from hts.view.export import exported, file_name

    files: dict[str, bytes] = {}
    taken: set[str] = set()
    for key in shelf.keys:
        _, checked = shelf.checked(key)
        if checked.case is None:
            raise click.ClickException(f"{printable(checked.path)}: {printable(checked.refused)}")
        if joint is not None and joint not in checked.joints:
            raise click.ClickException(f"{printable(checked.path)} has no joint {printable(joint)}")
        if checked.chosen() and joint is None:
            raise click.ClickException(
                f"{printable(checked.path)} has {len(checked.joints)} joints, too many for one "
                "page: name one with --joint"
            )
        page = exported(checked, reading, joint or "", predict=predict)
        files[file_name(checked, taken)] = page.encode("utf-8")
    if not files:
        raise click.ClickException("; ".join(map(printable, shelf.refused)) or "nothing to write")
    # Pages of other texts that were written there stay.
    written = put(
        folder, files, replace=replace, listed_in="pages.sha256", of_this_run=lambda name: False
    )
    for path in written:
        click.echo(path)
