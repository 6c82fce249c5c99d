"""`hts compile`: the papers of a specification."""

from __future__ import annotations

import os
import sys

import click

from hts.base.cluster import ClusterError, connected
from hts.base.quantities import TIME, Quantity
from hts.checking.checker.results import PackError, Results
from hts.checking.checker.run import check_spec
from hts.checking.checker.setting import Setting, applied
from hts.checking.report import terminal
from hts.cli.colour import colour_option
from hts.cli.completion import file_names
from hts.cli.configured import config_option, configuration
from hts.cli.folders import put, replace_option
from hts.cli.joints import in_folders, some_of
from hts.cli.papers import Request, added, paper_options
from hts.cli.read import spec_at, time_of
from hts.cli.since import changes_since
from hts.cli.terminal import coloured, width_of
from hts.cli.today import HELP, judged_on
from hts.job.compiler import CannotCompile, compile_spec, with_warnings
from hts.job.compiler.assumed import INTERVAL
from hts.job.outputs import files
from hts.job.outputs.contents import NAME as LIST
from hts.job.outputs.job_files import NAMES
from hts.paper.sheet import SIZES

_SHORTEST = Quantity.of(1, "min", TIME)


@click.command("compile")
@click.argument("path", metavar="SPEC", shell_complete=file_names)
@colour_option
@click.option(
    "-o",
    "--output",
    "folder",
    required=True,
    metavar="DIR",
    help="Folder for the files; created where it is missing.",
)
@paper_options
@click.option(
    "--since",
    metavar="REV",
    default=None,
    help="Mark the rows whose meaning changed since this revision of the repository.",
)
@click.option(
    "--joint",
    "names",
    multiple=True,
    metavar="NAME",
    help="Only the papers of this joint; may be repeated.",
)
@click.option(
    "--only-changed",
    is_flag=True,
    help="Only the papers of joints that changed in meaning since the revision of --since.",
)
@click.option(
    "--by-joint",
    is_flag=True,
    help="A folder for each joint with all its papers, and one index page.",
)
@click.option(
    "--sheet",
    type=click.Choice(list(SIZES), case_sensitive=False),
    metavar="|".join(SIZES),
    default=None,
    help="Paper size; A4 unless configured.",
)
@click.option(
    "--every",
    callback=time_of(_SHORTEST),
    default=str(INTERVAL),
    metavar="TIME",
    help="Time between two lines of the schedule; 5 min by default.",
)
@click.option(
    "--on",
    metavar="tcp://HOST:PORT",
    default=None,
    help="Have the packets set by this Dask scheduler; see grammar/CLUSTER.md for whom it trusts.",
)
@replace_option
@click.option(
    "--today",
    metavar="DATE",
    default=None,
    help=HELP,
)
@config_option
def command(
    path: str,
    folder: str,
    sheet: str | None,
    every: Quantity,
    on: str | None,
    replace: bool,
    today: str | None,
    config: str | None,
    since: str | None,
    labels_grid: dict[str, float],
    part: str | None,
    names: tuple[str, ...],
    only_changed: bool,
    by_joint: bool,
    **asked: bool,
) -> None:
    """Compile a specification into setpoint tables, tag sheets and paper for the pipe.

    `job.json` has every value with its reason. Packet, drawings, workbook and labels are made on
    request.

    All files are written, or none. What an earlier run wrote is replaced, or taken away where this
    one does not make it; a file that somebody has changed stays. Exits 0 when they are written, 1
    when the specification has errors or leaves a value open, 2 when it could not run.
    """
    if on is not None and not asked["packet"]:
        raise click.UsageError("--on shares out the packets: say --packet as well")
    if only_changed and since is None:
        raise click.UsageError("--only-changed goes with --since REV: say since when")
    configured = configuration(path, config)
    spec = spec_at(path, configured.defaults)
    results = Results()
    results.checked.append(spec.source.name)
    try:
        found = check_spec(
            spec, judged_on(today, configured), Setting(rule_packs=configured.rule_packs)
        )
        # An error is one whatever a file of settings makes of it: no paper comes of it.
        broken = any(finding.severity == "error" for finding in found)
        results.findings += found if broken else applied(configured.setting, found)
    except PackError as error:
        raise click.ClickException(str(error)) from None
    if broken or any(finding.severity == "error" for finding in results.findings):
        _say(terminal.write(results, colour=coloured(sys.stderr), width=width_of(sys.stderr)))
        _say("nothing was written: the specification has errors\n")
        sys.exit(1)
    try:
        job = with_warnings(compile_spec(spec, every), results.findings)
        if since is not None:
            job = job._replace(changes=changes_since(since, path, job, configured.defaults))
    except CannotCompile as error:
        for reason in error.reasons:
            _say(f"{terminal.printable(reason)}\n")
        _say("nothing was written: state these values, or name a rule that gives them\n")
        sys.exit(1)
    job = some_of(job, names, only_changed)
    request = Request(job, SIZES[sheet or configured.sheet], configured, labels_grid, part)
    try:
        with connected(on):
            made = (
                in_folders(request, asked) if by_joint else {**files(job), **added(asked, request)}
            )
    except ClusterError as error:
        raise click.ClickException(str(error)) from None
    written = put(folder, made, NAMES, replace=replace, listed_in=LIST)
    open_ones = sum(1 for finding in results.findings if finding.severity == "warning")
    if open_ones:
        _say(
            f"{open_ones} warning{'s' if open_ones > 1 else ''} open: run hts check "
            f"{terminal.printable(path)}\n"
        )
    for name in written:
        click.echo(name.replace(os.sep, "/"))


def _say(text: str) -> None:
    click.echo(text, nl=False, err=True)
