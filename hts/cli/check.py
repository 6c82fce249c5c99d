"""`hts check`: what is wrong with specifications."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable

import click

from hts.checking.checker.check_paths import cache_folder, check_paths
from hts.checking.checker.results import PackError, Results, Shard
from hts.checking.configuration import Configuration, ConfigurationError, loader
from hts.checking.report.formats import FORMATS, written
from hts.checking.report.terminal import NARROWEST, WIDEST
from hts.cli.checked import as_text
from hts.cli.colour import colour_option
from hts.cli.completion import file_names
from hts.cli.configured import cannot_use, config_option
from hts.cli.progress import progress
from hts.cli.reports import report_files, write_files
from hts.cli.shards import joined_reports, shard
from hts.cli.today import HELP, judged_on


@click.command("check")
@click.argument("paths", nargs=-1, required=True, metavar="PATH…", shell_complete=file_names)
@colour_option
@click.option(
    "--format",
    "output_format",
    type=click.Choice(list(FORMATS)),
    default="text",
    help="Format of the findings on standard output.",
)
@click.option(
    "--width",
    metavar="N",
    type=click.IntRange(NARROWEST, WIDEST),
    default=None,
    help="Characters in a line of the text, 60 to 120; those of the terminal by default.",
)
@click.option(
    "--report",
    "reports",
    metavar="FORMAT=PATH",
    multiple=True,
    callback=report_files,
    help="Also write a report into a file; may be repeated. All are written, or none.",
)
@click.option(
    "--statistics",
    is_flag=True,
    help="In place of the findings, how many there are of each rule.",
)
@click.option(
    "-q",
    "--quiet",
    is_flag=True,
    help="As text only errors, warnings and what could not be read; nothing where there is none.",
)
@config_option
@click.option(
    "--baseline",
    metavar="PATH",
    default=None,
    help="Leave out the findings that this file lists.",
)
@click.option(
    "--write-baseline",
    "shrinks",
    is_flag=True,
    help="Remove from the baseline what is no longer found, and nothing else.",
)
@click.option(
    "--new-baseline",
    "makes",
    is_flag=True,
    help="Make the baseline, of all findings that may be set aside; it must not exist yet.",
)
@click.option(
    "--today",
    metavar="DATE",
    default=None,
    help=HELP,
)
@click.option(
    "--stdin-path",
    metavar="PATH",
    default=None,
    help="Path that the text read from standard input belongs to.",
)
@click.option(
    "--jobs",
    metavar="N",
    type=click.IntRange(min=1),
    default=None,
    help="Number of processes; all cores by default where there are many files.",
)
@click.option(
    "--on",
    metavar="tcp://HOST:PORT",
    default=None,
    help="Share the files out by this Dask scheduler; see grammar/CLUSTER.md for whom it trusts.",
)
@click.option(
    "--predict",
    "predicts",
    is_flag=True,
    help="Also predict the temperatures inside the wall of every treatment; takes seconds for "
    "each. Without it that is done where the text says `predict`.",
)
@click.option(
    "--cache/--no-cache",
    "keeps",
    default=True,
    help="Keep outcomes between runs, in HTS_CACHE_DIR or the user's cache folder; the findings "
    "are the same.",
)
@click.option(
    "--shard",
    metavar="I/N",
    callback=shard,
    default=None,
    help="Check only part I of N equal parts of the files, one for each of N machines.",
)
@click.option(
    "--with-users",
    "users",
    is_flag=True,
    help="Also check every specification of the repository that uses one of the files named.",
)
@click.option(
    "--merge-reports",
    is_flag=True,
    help="Join the JSON reports of all shards, given as PATH, into the report of the whole check.",
)
@click.option(
    "--fix",
    "mends",
    is_flag=True,
    help="First mend what the layout alone got wrong; the meaning is proved to stay the same.",
)
@click.option(
    "--offer",
    "wanted",
    metavar="CODE@ADDRESS",
    default=None,
    help="Show what would mend one finding, as a diff with its verdict; with --fix write it. LIST "
    "names what is offered.",
)
def command(
    paths: tuple[str, ...],
    output_format: str,
    width: int | None,
    reports: dict[str, str],
    statistics: bool,
    quiet: bool,
    config: str | None,
    baseline: str | None,
    shrinks: bool,
    makes: bool,
    today: str | None,
    stdin_path: str | None,
    jobs: int | None,
    on: str | None,
    predicts: bool,
    keeps: bool,
    shard: Shard | None,
    users: bool,
    merge_reports: bool,
    mends: bool,
    wanted: str | None,
) -> None:
    """Check specifications: files, folders, or - for standard input.

    Of a folder all *.hts files in and below it are checked.

    Exits 0 when there is no error or warning, 1 when there is, 2 when it could not run.
    """
    if (statistics or quiet) and output_format != "text":
        raise click.UsageError("--statistics and --quiet are about text: leave --format out")
    if shard is not None and merge_reports:
        raise click.UsageError("the reports are those of shards already: leave --shard out")
    if shard is not None and "-" in paths:
        raise click.UsageError(
            "standard input cannot be split into shards: name files with --shard"
        )
    if on is not None and jobs is not None:
        raise click.UsageError("--on shares the files out itself: leave --jobs out")
    if (shrinks or makes) and baseline is None:
        option = "--new-baseline" if makes else "--write-baseline"
        raise click.UsageError(f"{option} needs the file: --baseline PATH")
    if baseline is not None and shard is not None:
        raise click.UsageError(
            "a shard sees only part of the findings: give the baseline when merging"
        )
    configured = loader(config)
    asked = mends or wanted is not None
    if asked and _mended(paths, mends, wanted, today, configured, stdin_path):
        return
    try:
        if merge_reports:
            results = joined_reports(paths)
        else:
            results = check_paths(
                paths,
                today=judged_on(today, configured(_first(paths, stdin_path))),
                stdin_path=stdin_path,
                jobs=jobs,
                settings=lambda path: configured(path).setting._replace(predicts=predicts),
                shard=shard,
                cache=cache_folder() if keeps else None,
                progress=progress(),
                users=users,
                on=on,
            )
    except ConfigurationError as error:
        raise cannot_use(error) from None
    except (OSError, PackError) as error:
        raise click.ClickException(str(error)) from None
    files = {}
    if baseline is not None:
        from hts.cli.baseline import apply_baseline

        files = apply_baseline(results, baseline, shrinks, makes)
    write_files(results, reports, files)
    click.echo(_told(results, output_format, width, statistics, quiet), nl=False)
    sys.exit(results.exit_code)


def _mended(
    paths: tuple[str, ...],
    mends: bool,
    wanted: str | None,
    today: str | None,
    configured: Callable[[str], Configuration],
    stdin_path: str | None,
) -> bool:
    """Mends what was asked for; whether that was all."""
    from hts.cli.fix import mend_layout, offer

    if "-" in paths:
        raise click.UsageError("standard input cannot be mended: name files")
    try:
        day = judged_on(today, configured(_first(paths, stdin_path)))
        if wanted is not None:
            if len(paths) != 1 or os.path.isdir(paths[0]):
                raise click.UsageError("--offer is about one file")
            offer(paths[0], wanted, configured(paths[0]), day, writes=mends)
            return True
        for path in paths:
            mend_layout(path, configured, day)
    except ConfigurationError as error:
        raise cannot_use(error) from None
    except PackError as error:
        raise click.ClickException(str(error)) from None
    return False


def _first(paths: tuple[str, ...], stdin_path: str | None) -> str:
    """The path whose configuration says on which day the run is judged: there is one for all."""
    return next((path for path in paths if path != "-"), stdin_path or ".")


def _told(
    results: Results, output_format: str, width: int | None, statistics: bool, quiet: bool
) -> str:
    if output_format != "text":
        return written(output_format, results)
    if not statistics:
        return as_text(results, width, quiet=quiet)
    from hts.checking.report import terminal

    failures = "".join(
        f"cannot read {terminal.printable(f.name)}: {terminal.printable(f.reason)}\n"
        for f in results.failures
    )
    end = "" if quiet else terminal.summary(results)
    return failures + terminal.statistics(results) + end
