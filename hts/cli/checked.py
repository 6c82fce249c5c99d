"""A check whose paths are known: its results, and how they are told."""

from __future__ import annotations

import sys

from hts.checking.checker.check_paths import cache_folder, check_paths
from hts.checking.checker.results import PackError, Results
from hts.checking.configuration import ConfigurationError, loader
from hts.cli.progress import progress
from hts.cli.terminal import coloured, width_of
from hts.cli.today import judged_on


class Refused(Exception):
    """What was asked for could not be done; nothing was written."""


def check_alone(paths: tuple[str, ...], *, keeps: bool) -> int:
    """Checks paths as configured, tells what was found as text, and gives the exit code.

    Raises Refused where a configuration, a rule pack or the cache cannot be used.
    """
    configured = loader(None)
    try:
        results = check_paths(
            paths,
            today=judged_on(None, configured(paths[0])),
            settings=lambda path: configured(path).setting,
            cache=cache_folder() if keeps else None,
            progress=progress(),
        )
    except (ConfigurationError, OSError, PackError):
        raise Refused from None
    sys.stdout.write(as_text(results, None, quiet=False))
    sys.stdout.flush()
    return results.exit_code


def as_text(results: Results, width: int | None, *, quiet: bool) -> str:
    """The report on standard output, as wide as said or as the terminal is."""
    from hts.checking.report import terminal

    return terminal.write(
        results,
        colour=coloured(sys.stdout),
        width=width or width_of(sys.stdout),
        quiet=quiet,
    )
