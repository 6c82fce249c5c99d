"""Files put into a folder that somebody named: all or none, and never over those of others."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeVar

import click

from hts.checking.report.terminal import printable

F = TypeVar("F", bound=Callable[..., Any])


def replace_option(command: F) -> F:
    """Adds `--replace`, without which nothing of others is written over."""
    help = "Write over files that were changed by hand or are not ours."
    return click.option("--replace", is_flag=True, help=help)(command)


def put(
    folder: str,
    files: Mapping[str, bytes],
    stale: Iterable[str] = (),
    *,
    replace: bool,
    listed_in: str,
    of_this_run: Callable[[str], bool] = lambda name: True,
) -> list[str]:
    """The paths of what was written; as `renew`, but ends the program with code 2 where it could
    not be, and says why."""
    from hts.job.outputs.contents import OfOthers, renew

    try:
        return renew(
            folder, files, stale, replace=replace, listed_in=listed_in, of_this_run=of_this_run
        )
    except OfOthers as path_of_others:
        said = (
            f"nothing was written: {printable(str(path_of_others))} was changed by hand, or is not "
            "of an earlier run; name another folder, or say --replace"
        )
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        said = f"cannot write into {printable(folder)}: {reason}"
    click.echo(said, err=True)
    sys.exit(2)
