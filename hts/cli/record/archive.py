"""`hts record check --archive`: all records of a folder, one line each."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NoReturn, TypeVar

import click

from hts.checking.report.terminal import printable
from hts.cli import shards
from hts.cli.configured import configuration
from hts.cli.progress import progress
from hts.cli.record.asked import COULD_NOT, refuse, told

if TYPE_CHECKING:
    from hts.checking.checker.results import Shard
    from hts.record.reading import Options

F = TypeVar("F", bound=Callable[..., Any])


def archive_options(command: F) -> F:
    """Adds the options of an archive."""
    for option in (
        click.option(
            "--shard",
            callback=shards.shard,
            metavar="I/N",
            default=None,
            help="Judge only part I of N equal parts of an archive.",
        ),
        click.option(
            "--jobs",
            type=click.IntRange(min=1),
            metavar="N",
            default=None,
            help="Number of processes for an archive; all cores by default.",
        ),
        click.option(
            "--on",
            "cluster",
            metavar="tcp://HOST:PORT",
            default=None,
            help="Share an archive out by this Dask scheduler; see grammar/CLUSTER.md for whom it "
            "trusts.",
        ),
        click.option(
            "--archive",
            metavar="FOLDER",
            default=None,
            help="Judge all logs below FOLDER that belong to SPEC, a file or a folder; one line "
            "for each, and one for each run without a record.",
        ),
    ):
        command = option(command)
    return command


def judge_archive(
    specs: str,
    folder: str,
    options: Options,
    today: str | None,
    jobs: int | None,
    cluster: str | None,
    shard: Shard | None,
    output_format: str,
    config: str | None,
    joint: str | None,
    cycle: str | None,
) -> NoReturn:
    """Prints the table and ends the program: 0 all met or nothing due, 1 something not met, not
    shown or without a record, 2 something could not be judged."""
    from hts.base.cluster import ClusterError, connected
    from hts.record.archive import audit
    from hts.record.archive.audit import Asked
    from hts.record.archive.line import NONE_DUE, NOT_JUDGED
    from hts.record.archive.table import table
    from hts.record.errors import RecordError
    from hts.record.judging import MET

    if not os.path.exists(specs):
        refuse(f"{printable(specs)}: there is no such file or folder\n")
    if not os.path.isdir(folder):
        refuse(f"{printable(folder)}: this is not a folder; name the one with the logs\n")
    configuration(specs, config)  # one that cannot be used is told once, not with every record
    asked = Asked(specs, folder, options, today, jobs, shard, config, joint, cycle)
    verdicts: set[str] = set()

    def lines() -> Any:
        for line in audit(asked, progress(8, "records")):
            verdicts.add(line.verdict)
            yield line

    try:
        with connected(cluster):
            for text in table(lines(), output_format):
                click.echo(text, nl=False)
    except ClusterError as error:
        refuse(f"{printable(str(error))}\n")
    except RecordError as error:
        refuse(told(error))
    except ChildProcessError as error:
        refuse(f"{printable(str(error))}\n")
    except BrokenPipeError:
        raise
    except OSError as error:
        refuse(f"cannot read {printable(folder)}: {(error.strerror or str(error)).lower()}\n")
    sys.exit(COULD_NOT if NOT_JUDGED in verdicts else int(bool(verdicts - {MET, NONE_DUE})))
