"""Files of a judged record: which are made, and where they go."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

import click

from hts.checking.report.terminal import printable
from hts.cli.configured import config_option, configuration
from hts.cli.folders import put, replace_option
from hts.cli.papers import unset
from hts.paper.sheet import SIZES

if TYPE_CHECKING:
    from hts.record.expected.comparison import Comparison
    from hts.record.judging import Judgement

F = TypeVar("F", bound=Callable[..., Any])

_PAPERS = (
    ("pdf", "The report as PDF."),
    ("xlsx", "Verdicts and readings as a workbook."),
    ("svg", "Chart of the readings over what was allowed."),
    ("png", "The same chart as a picture."),
)


class Wanted(NamedTuple):
    """`folder` None: nothing is written."""

    folder: str | None
    kinds: tuple[str, ...]
    sheet: str | None
    config: str | None
    replace: bool


def paper_options(command: F) -> F:
    """Adds the options; `wanted` takes their values out of the parameters."""
    command = replace_option(config_option(command))
    command = click.option(
        "--sheet",
        type=click.Choice(list(SIZES), case_sensitive=False),
        metavar="|".join(SIZES),
        default=None,
        help="Paper size; A4 unless configured.",
    )(command)
    for kind, help in reversed(_PAPERS):
        command = click.option(f"--{kind}", is_flag=True, help=f"{help} Needs -o.")(command)
    return click.option(
        "-o",
        "--output",
        "folder",
        metavar="DIR",
        default=None,
        help="Folder for the judgement as JSON and for the other files asked for.",
    )(command)


def wanted(given: dict[str, Any]) -> Wanted:
    """Takes these options out of the parameters of a command."""
    kinds = tuple(kind for kind, _ in _PAPERS if given.pop(kind))
    found = Wanted(
        given.pop("folder"),
        ("json", *kinds),
        given.pop("sheet"),
        given.pop("config"),
        given.pop("replace"),
    )
    if kinds and found.folder is None:
        raise click.UsageError(f"--{kinds[0]} needs a folder: -o DIR")
    return found


def hand_over(
    judgement: Judgement, asked: Wanted, spec: str, comparison: Comparison | str | None = None
) -> None:
    """Writes all files, or none; tells their paths on standard error."""
    if asked.folder is None:
        return
    from hts.paper.sheet import MissingPackage
    from hts.record.handover import files

    sheet = asked.sheet or configuration(spec, asked.config).sheet
    try:
        made = files(judgement, asked.kinds, SIZES[sheet], comparison)
    except MissingPackage as error:
        raise click.ClickException(str(error)) from None
    except OSError as error:
        raise click.ClickException(unset(error)) from None
    stem = next(name for name in made if name.endswith(".json")).removesuffix("json")
    others = (stem, f"{stem[:-1]}-predicted.")
    for path in put(
        asked.folder,
        made,
        replace=asked.replace,
        listed_in="records.sha256",
        # Those of other runs stay, and none of this one that says what an earlier log showed.
        of_this_run=lambda name: name.startswith(others),
    ):
        click.echo(printable(path), err=True)
