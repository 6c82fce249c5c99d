"""The baseline of a check."""

from __future__ import annotations

import os

import click

from hts.base.text.reading import root_of
from hts.checking.checker.results import Results, Suppressed
from hts.checking.configuration import ConfigurationError
from hts.checking.configuration.baseline import made_of, read_baseline
from hts.checking.report.terminal import printable
from hts.cli.configured import cannot_use


def apply_baseline(results: Results, path: str, writes: bool) -> dict[str, str]:
    """Leaves the known findings out of the results, and returns the files to be written.

    With ``writes`` a baseline is brought up to date, or made where there is none. Raises
    click.ClickException.
    """
    try:
        baseline = read_baseline(path)
    except ConfigurationError as error:
        raise cannot_use(error) from None
    made = baseline is None
    if baseline is None:
        if not writes:
            raise click.ClickException(
                f"there is no baseline {printable(path)}; --write-baseline makes it"
            )
        baseline = made_of(results.findings)
    checked = set(results.checked)
    root = root_of(path)

    def judged(file: str) -> bool:
        return file in checked or not os.path.exists(os.path.join(root, file))

    new, known = baseline.split(results.findings)
    later = baseline.shrunk(known, judged)
    results.findings = new
    results.suppressed += [Suppressed(each, False, f"known to {path}") for each in known]
    results.known = len(known)
    results.gone = baseline.gone(later)
    return {path: later.text()} if writes and (made or results.gone) else {}
