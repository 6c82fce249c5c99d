"""Reports that go into files."""

from __future__ import annotations

import os
from collections.abc import Mapping

import click

from hts.checking.checker.check_paths import SUFFIX
from hts.checking.checker.results import Results
from hts.checking.report.formats import FORMATS, written
from hts.checking.report.terminal import printable


def report_files(
    ctx: click.Context, param: click.Parameter, given: tuple[str, ...]
) -> dict[str, str]:
    """Format by path, from texts such as sarif=build/hts.sarif."""
    files: dict[str, str] = {}
    named: set[str] = set()
    for text in given:
        output_format, equals, path = text.partition("=")
        if not equals or not path:
            raise click.BadParameter(
                f"{text!r} does not name a file; write, for example, sarif=hts.sarif", ctx, param
            )
        if output_format not in FORMATS:
            raise click.BadParameter(
                f"{output_format!r} is not a format; there are: {', '.join(FORMATS)}", ctx, param
            )
        if path.endswith(SUFFIX):
            raise click.BadParameter(f"{path!r} is a specification", ctx, param)
        if os.path.realpath(path) in named:
            raise click.BadParameter(f"two reports go into {path!r}", ctx, param)
        named.add(os.path.realpath(path))
        files[path] = output_format
    return files


def write_files(results: Results, reports: Mapping[str, str], others: Mapping[str, str]) -> None:
    """Writes the reports, and other files by path; all or none. Raises click.ClickException."""
    files = {
        **others,
        **{path: written(output_format, results) for path, output_format in reports.items()},
    }
    if not files:
        return
    if len(files) < len(reports) + len(others):
        raise click.ClickException("a report would replace the baseline")
    from hts.checking.report.save import save

    try:
        save(files)
    except OSError as error:
        reason = error.strerror.lower() if error.strerror else str(error)
        where = f"{printable(str(error.filename))}: " if error.filename else ""
        raise click.ClickException(f"nothing was written: {where}{printable(reason)}") from None
