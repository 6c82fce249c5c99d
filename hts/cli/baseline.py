"""The baseline of a check."""

from __future__ import annotations

import os

import click

from hts.base.text.reading import root_of
from hts.checking.checker.all_kinds import of_reading
from hts.checking.checker.results import Results, Suppressed
from hts.checking.configuration import ConfigurationError
from hts.checking.configuration.baseline import made_of, read_baseline
from hts.checking.report.terminal import printable
from hts.cli.configured import cannot_use


def apply_baseline(results: Results, path: str, shrinks: bool, makes: bool) -> dict[str, str]:
    """Leaves the known findings out of the results, and returns the files to be written.

    ``shrinks`` brings it up to date, ``makes`` makes one where there is none: a run that means to
    use a baseline never makes it, as a wrong path would then set every finding aside. Raises
    click.ClickException.
    """
    try:
        baseline = read_baseline(path)
    except ConfigurationError as error:
        raise cannot_use(error) from None
    if baseline is None:
        if not makes:
            raise click.ClickException(
                f"there is no baseline {printable(path)}; --new-baseline makes it"
            )
        baseline = made_of(results.findings)
    elif makes:
        raise click.ClickException(
            f"the baseline {printable(path)} is there; --write-baseline brings it up to date"
        )
    root = root_of(path)

    new, known = baseline.split(results.findings)
    checked = set(results.checked) - {failure.name for failure in results.failures}
    # Past an error of reading the rules are not put to what it spoils.
    checked -= {f.at.span.source.name for f in new if f.severity == "error" and of_reading(f.kind)}

    def judged(file: str) -> bool:
        return file in checked or not os.path.lexists(os.path.join(root, file))

    later = baseline.shrunk(known, judged)
    results.findings = new
    results.suppressed += [Suppressed(each, False, f"known to {path}") for each in known]
    results.known = len(known)
    results.gone = baseline.gone(later)
    return {path: later.text()} if makes or (shrinks and results.gone) else {}
