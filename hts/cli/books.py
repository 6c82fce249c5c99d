"""`hts books`: the rule books, listed and printed."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING

import click

from hts.cli.completion import book_names

if TYPE_CHECKING:
    from hts.limits.books import System


@click.command("books")
@click.argument("name", required=False, metavar="[BOOK]", shell_complete=book_names)
@click.option("--edition", help="Edition to print; all of them by default.")
@click.option(
    "--units",
    type=click.Choice(["SI", "US"]),
    default="SI",
    help="System of units where a code prints both.",
)
@click.option(
    "--format",
    "output_format",
    type=click.Choice(["text", "json"]),
    default="text",
    help="Format of the answer.",
)
def command(name: str | None, edition: str | None, units: System, output_format: str) -> None:
    """List the rule books, or print one with the citation and basis of each row."""
    from hts.job.explain import books
    from hts.limits import UnknownBook, UnknownEdition, book

    try:
        if name is None:
            made = books.every(units)
        else:
            wanted = (edition,) if edition is not None else books.editions(name)
            made = [book(name, each, units) for each in wanted]
    except (UnknownBook, UnknownEdition) as error:
        hint = f"; did you mean {error.suggestion}?" if error.suggestion else ""
        if isinstance(error, UnknownBook):
            hint += "; `hts books` lists them"
        click.echo(f"{error}{hint}", err=True)
        sys.exit(2)
    if output_format == "json":
        data = [books.as_json(each) for each in made]
        if name is None:
            for shown in data:
                del shown["rows"]
        click.echo(json.dumps(data, ensure_ascii=False, indent=1))
    elif name is None:
        for each in made:
            click.echo(books.line(each))
    else:
        click.echo("\n".join(books.text(each) for each in made), nl=False)
