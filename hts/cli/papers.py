"""The papers `hts compile` makes when asked: one row for each option.

Nothing of a row is imported before its option is given.
"""

from __future__ import annotations

import math
import os
import tempfile
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from hts.checking.report.terminal import printable

if TYPE_CHECKING:
    from hts.checking.configuration import Configuration
    from hts.job.compiler import Job
    from hts.paper.sheet import Size

#: What of a sheet of labels is counted and no length.
_COUNTS = ("rows", "columns", "copies", "start")
#: From here on the work takes long enough to be shown.
_WORTH = 3


class Request(NamedTuple):
    """What a paper is made from."""

    job: Job
    size: Size
    configured: Configuration
    labels: dict[str, float]
    part: str | None = None


class Paper(NamedTuple):
    """An option with what it adds: name -> bytes."""

    option: str
    help: str
    make: Callable[[Request], dict[str, bytes]]


def _packet(request: Request) -> dict[str, bytes]:
    from hts.cli.progress import progress
    from hts.language.model.load import root_of
    from hts.paper.packet import PARTS, files
    from hts.paper.sheet.letterhead import Letterhead, LetterheadError, letterhead

    parts = (request.part,) if request.part is not None else PARTS
    made, configured = Letterhead(), request.configured
    if configured.path is not None:
        folder = os.path.dirname(os.path.realpath(configured.path))
        try:
            root = root_of(os.path.realpath(configured.path))
            made = letterhead(configured.company, configured.logo, folder, root)
        except LetterheadError as error:
            place = configured.origin.get("paper.logo", "paper.logo")
            raise click.ClickException(f"{place}: {error}") from None
    return files(request.job, request.size, progress(_WORTH, "packets"), parts, made)


def _drawings(request: Request) -> dict[str, bytes]:
    from hts.paper.drawings import files

    return files(request.job, request.size)


def _workbook(request: Request) -> dict[str, bytes]:
    from hts.paper.workbook import files

    return files(request.job, request.size)


def _kit(request: Request) -> dict[str, bytes]:
    from hts.paper.kit import files

    return files(request.job, request.size)


def _labels(request: Request) -> dict[str, bytes]:
    from hts.paper.labels import Grid, GridError, files

    settings = {**request.configured.labels, **request.labels}
    counts = {name: int(settings.pop(name)) for name in _COUNTS if name in settings}
    grid = Grid()._replace(**counts)._replace(**settings)  # type: ignore[arg-type]
    try:
        return files(request.job, request.size, grid)
    except GridError as error:
        raise click.ClickException(f"the labels do not fit: {error}") from None


PAPERS = (
    Paper("packet", "The packet: a PDF for each joint, or for joints heated together.", _packet),
    Paper("svg", "The drawings of each joint as SVG files.", _drawings),
    Paper("xlsx", "A workbook with numbers to calculate with and cells to fill in.", _workbook),
    Paper("kit", "What to load, summed over the joints: PDF, CSV and workbook.", _kit),
    Paper("labels", "A PDF of label flags for the thermocouple leads.", _labels),
)


def _grid(
    ctx: click.Context, param: click.Parameter, settings: tuple[str, ...]
) -> dict[str, float]:
    """What is said of the sheet of labels, by the names of the fields of hts.paper.labels.Grid."""
    if not settings:
        return {}
    from hts.paper.labels import Grid

    known = {name.replace("_", "-"): name for name in Grid._fields}
    found: dict[str, float] = {}
    for text in settings:
        key, _, value = text.partition("=")
        try:
            number = float(value)
            if not math.isfinite(number):
                raise ValueError
            whole = key not in _COUNTS or number.is_integer()
        except ValueError:
            whole = False
        if key not in known or not whole:
            raise click.BadParameter(
                f"{text!r}; write {', '.join(known)} with a number, as rows=10 or gap-down=2.5",
                ctx,
                param,
            )
        found[known[key]] = number
    return found


def paper_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Adds the options to a command, in the order of the table."""
    command = click.option(
        "--label",
        "labels_grid",
        multiple=True,
        callback=_grid,
        metavar="KEY=NUMBER",
        help="Layout of the label sheet: rows, columns, width, height, left, top, gap-across or "
        "gap-down, lengths in mm; copies of each, and start, the first free place of a used sheet; "
        "as configured by default. May be repeated.",
    )(command)
    command = click.option(
        "--part",
        type=click.Choice(["pipe", "file"]),
        default=None,
        help="Only this part of the packet: what goes to the pipe, or what is kept on file.",
    )(command)
    for paper in reversed(PAPERS):
        command = click.option(f"--{paper.option}", is_flag=True, help=paper.help)(command)
    return command


def added(asked: dict[str, bool], request: Request) -> dict[str, bytes]:
    """The papers asked for. Raises click.ClickException where they cannot be made."""
    from hts.paper.sheet import MissingPackage
    from hts.paper.sheet.fonts import beside

    if request.labels and not asked["labels"]:
        raise click.UsageError("--label is for the sheet of --labels: give that option as well")
    if request.part is not None and not asked["packet"]:
        raise click.UsageError("--part is for --packet: give that option as well")
    found: dict[str, bytes] = {}
    try:
        with beside(request.configured.font):
            for paper in PAPERS:
                if asked[paper.option]:
                    found.update(paper.make(request))
    except MissingPackage as error:
        raise click.ClickException(str(error)) from None
    except OSError as error:
        raise click.ClickException(unset(error)) from None
    return found


def unset(error: OSError) -> str:
    """What is told where nothing can be written while pages are set."""
    reason = (error.strerror or str(error)).lower()
    return (
        f"cannot set the pages in {printable(tempfile.gettempdir())}: {reason}; make room there, "
        "or name another folder with TMPDIR"
    )
