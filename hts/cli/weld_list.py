"""`hts weld-list`: the welds of a specification's lists as read, with what governs each."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from hts.cli.completion import file_names
from hts.cli.configured import config_option, configuration
from hts.cli.read import spec_at

if TYPE_CHECKING:
    from hts.job.outputs.weld_table import WeldTable
    from hts.language.model import Spec


@click.command("weld-list")
@click.argument("path", metavar="SPEC", shell_complete=file_names)
@click.option(
    "--format",
    "output_format",
    type=click.Choice(["text", "csv", "xlsx"]),
    default="text",
    help="Format of the answer; xlsx needs -o.",
)
@click.option("-o", "--output", "output", metavar="FILE", help="File to write; must not exist yet.")
@config_option
def command(path: str, output_format: str, output: str | None, config: str | None) -> None:
    """Print the weld lists as they are read, with what governs each weld.

    One row for each weld and treatment: what its cells say, what is written over its row, and the
    thickness, bands, preheat and hold in force. Exits 0 when all welds are shown, 1 when some have
    errors or there is no list, 2 when it could not run.
    """
    from hts.checking.checker import Case
    from hts.checking.report.terminal import printable
    from hts.job.outputs.weld_table import as_csv, summed, weld_tables

    if output_format == "xlsx" and output is None:
        raise click.UsageError("a workbook goes into a file: name it with -o FILE.xlsx")
    case = Case(spec_at(path, configuration(path, config).defaults))
    tables = weld_tables(case)
    if not tables:
        click.echo(f"{printable(path)} has no weld list", err=True)
        sys.exit(1)
    unread = any(table.unread for table in tables) or any(
        finding.severity == "error" for finding in case.spec.findings
    )
    if output_format == "text":
        data = "\n".join(_aligned(t.heads, t.rows) + f"{summed(t)}\n" for t in tables).encode()
    elif output_format == "csv":
        data = "\n".join(as_csv(table) for table in tables).encode()
    else:
        data = _workbook(case.spec, tables)
    if output is None:
        click.echo("\n".join(map(printable, data.decode().splitlines())))
    else:
        _write(output, data)
    if unread:
        click.echo("the text or its tables have errors; run `hts check` to see them", err=True)
    sys.exit(1 if unread else 0)


def _workbook(spec: Spec, tables: list[WeldTable]) -> bytes:
    from hts.job.compiler import CannotCompile, compile_spec
    from hts.paper.sheet import MissingPackage

    try:
        from hts.paper.workbook.welds import workbook

        return workbook(compile_spec(spec), tables)
    except MissingPackage as error:
        raise click.ClickException(str(error)) from None
    except CannotCompile as error:
        reason = f"{error.reasons[0]}; a workbook carries what is compiled"
        raise click.ClickException(reason) from None


def _write(path: str, data: bytes) -> None:
    from hts.base.leftovers import is_there, put_new
    from hts.checking.report.terminal import printable

    if is_there(path):
        raise click.ClickException(f"{printable(path)} already exists; nothing was written")
    try:
        put_new(path, data)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise click.ClickException(f"cannot write {printable(path)}: {reason}") from None


def _aligned(heads: tuple[str, ...], rows: list[tuple[str, ...]]) -> str:
    """Columns that have a cell, one under the other."""
    kept = [n for n in range(len(heads)) if n == 0 or any(row[n] for row in rows)]
    lines = [[line[n] for n in kept] for line in (heads, *rows)]
    widths = [max(len(line[n]) for line in lines) for n in range(len(kept))]
    return "".join(
        "  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip()
        + "\n"
        for line in lines
    )
