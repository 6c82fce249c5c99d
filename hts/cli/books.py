"""`hts books`: the rule books, listed, printed, compared, and one of your own begun."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, NoReturn, TypeVar

import click

from hts.base.text.json_text import json_text
from hts.cli.completion import book_names
from hts.cli.configured import config_option, configuration

if TYPE_CHECKING:
    from hts.base.text import Source
    from hts.limits import Book
    from hts.limits.book_file import BookFile
    from hts.limits.books import System

T = TypeVar("T")

#: asme-b31.3-2018 and "asme-b31.3 edition 2018".
_EDITION = re.compile(r"(?P<name>.+?)(?:-| +edition +)(?P<edition>(?:19|20)\d\d)")
_FILE = (".yaml", ".yml")


@click.command("books")
@click.argument("names", nargs=-1, metavar="[BOOK]...", shell_complete=book_names)
@click.option("--edition", help="Edition to print; all of them by default.")
@click.option(
    "--for",
    "joint",
    nargs=2,
    metavar="SPEC JOINT",
    help="Compare what the books ask of this joint.",
)
@click.option("--new", "new", metavar="FILE.yaml", help="Begin a rule book of your own.")
@click.option(
    "--units",
    type=click.Choice(["SI", "US"]),
    default="SI",
    help="System of units where a code prints both.",
)
@click.option(
    "--format",
    "output_format",
    type=click.Choice(["text", "json", "markdown"]),
    default="text",
    help="Format of the answer; markdown for comparisons.",
)
@config_option
def command(
    names: tuple[str, ...],
    edition: str | None,
    joint: tuple[str, str] | None,
    new: str | None,
    units: System,
    output_format: str,
    config: str | None,
) -> None:
    """List the rule books, print one, or compare several.

    BOOK is a name of the list, with an edition where one is meant (asme-b31.3-2018), or the file
    of a rule book of your own, which is checked. Two editions of a book are compared row by row;
    with --for, any books are compared for the facts of one joint, the strictest marked.
    """
    if new is not None:
        if names or joint or edition:
            _stop("--new stands alone")
        _begin(new)
    elif joint is not None:
        _for_joint(names, edition, joint, output_format, config)
    elif len(names) > 1:
        _two_editions(names, units, output_format)
    else:
        _printed(names[0] if names else None, edition, units, output_format)


def _printed(name: str | None, edition: str | None, units: System, output_format: str) -> None:
    from hts.job.explain import books

    if output_format == "markdown":
        _stop("markdown is for comparisons; grammar/BOOKS.md has the books")
    if name is None:
        made = books.every(units)
    elif name.endswith(_FILE):
        made = _own(name, edition, units)
    else:
        id, year = _named(name)
        year = edition or year
        wanted = (year,) if year is not None else _known(lambda: books.editions(id))
        made = [_book(id, each, units) for each in wanted]
    if output_format == "json":
        data = [books.as_json(each) for each in made]
        if name is None:
            for shown in data:
                del shown["rows"]
        click.echo(json_text(data), nl=False)
    elif name is None:
        for each in made:
            click.echo(books.line(each))
    else:
        from hts.checking.report.terminal import printable_lines

        click.echo(printable_lines("\n".join(books.text(each) for each in made)), nl=False)
        if name.endswith(_FILE):
            _worked_out(name)


def _worked_out(path: str) -> None:
    """Tells what the rows of a book of one's own come to for some metal or wall and should not."""
    from hts.base.text import Source
    from hts.checking.checker import check_spec
    from hts.checking.checker.check_paths import Results
    from hts.checking.report import terminal
    from hts.cli.terminal import coloured, width_of
    from hts.language.model import Loader, Spec
    from hts.language.model.load import root_of

    beside = os.path.join(os.path.dirname(os.path.abspath(path)), "book.hts")
    named = os.path.basename(path).replace('"', "")
    loader = Loader(root_of(path))
    text = f'spec 1\n\nbook "{named}"\n'
    findings = check_spec(Spec(Source(text, loader.name(beside), beside), loader))
    results = Results()
    results.checked.append(path)
    results.findings = [found for found in findings if found.kind.code[0] == "R"]
    if results.findings:
        click.echo()
        click.echo(
            terminal.write(results, colour=coloured(sys.stdout), width=width_of(sys.stdout)),
            nl=False,
        )


def _two_editions(names: tuple[str, ...], units: System, output_format: str) -> None:
    from hts.job.explain.books import called
    from hts.job.explain.editions import differences, told

    pairs = [_named(name) for name in names]
    if len({id for id, _ in pairs}) > 1:
        _stop("books are compared for a joint: add --for SPEC JOINT; the rows of two are unlike")
    if len(pairs) != 2:
        _stop("two editions are compared row by row; for more add --for SPEC JOINT")
    first, second = (_book(id, edition, units) for id, edition in pairs)
    found = differences(first, second)
    if output_format == "json":
        rows = [
            {"row": d.id, called(first): d.first, called(second): d.second, "standing": d.known}
            for d in found
        ]
        click.echo(json_text(rows), nl=False)
        return
    click.echo(f"{called(first)} and {called(second)}: {len(found)} rows differ")
    for difference in found:
        standing = " (known otherwise)" if difference.known else ""
        click.echo(f"\n{difference.quantity}: {difference.id}{standing}")
        click.echo(f"  {first.edition}: {told(difference.first)}")
        click.echo(f"  {second.edition}: {told(difference.second)}")


def _for_joint(
    names: tuple[str, ...],
    edition: str | None,
    joint: tuple[str, str],
    output_format: str,
    config: str | None,
) -> None:
    from hts.checking.checker import Case
    from hts.checking.govern.sources import Authority, authority_of
    from hts.checking.report.terminal import printable, printable_lines
    from hts.cli.read import spec_at
    from hts.cli.terminal import width_of
    from hts.job.explain import side_by_side_forms as forms
    from hts.job.explain.side_by_side import compared

    if edition is not None:
        _stop("name the edition with the book: asme-b31.3-2018")
    path, wanted = joint
    case = Case(spec_at(path, configuration(path, config).defaults))
    named, _, of = wanted.partition("/")
    found = next((each for each in case.joints() if each.name == named), None)
    if found is None:
        there = ", ".join(each.name for each in case.joints()) or "none that can be read"
        _stop(f"{printable(path)} has no joint {printable(named)}; it has: {printable(there)}")
    treatments = [t for t in case.treatments(found) if not of or t.name == of]
    if of and not treatments:
        _stop(f"{printable(named)} has no treatment {printable(of)}")
    in_force = {a.name: a for a in case.authorities}
    made: list[Authority] = []
    for name in names:
        id, year = _named(name)
        if name.endswith(_FILE):
            made += [authority_of(book) for book in _own(name, None, "SI")[-1:]]
        elif id in in_force and year in (None, in_force[id].edition):
            made.append(in_force[id])
        else:
            made.append(authority_of(_book(id, year, "SI", newest=True)))
    if not names:
        made = list(case.authorities)
    if not made:
        _stop("name the books to compare; the job names none that can be read")
    tables = compared(found, treatments, made)
    if output_format == "json":
        answer = [forms.as_json(table) for table in tables]
        click.echo(json_text(answer), nl=False)
    elif output_format == "markdown":
        click.echo("\n".join(map(forms.markdown, tables)), nl=False)
    else:
        width = width_of(sys.stdout) or 110
        text = "\n".join(forms.text(table, width) for table in tables)
        click.echo(printable_lines(text), nl=False)


def _begin(path: str) -> None:
    from hts.base.leftovers import is_there, put_new
    from hts.checking.report.terminal import printable
    from hts.cli.starter.own_book import id_of, skeleton
    from hts.limits.books import books

    if not path.endswith(_FILE):
        _stop("a rule book is a YAML file: name it FILE.yaml")
    id = id_of(os.path.basename(path).rpartition(".")[0])
    if not id:
        _stop("the file's name gives the book its name: begin it with a letter, such as our-law")
    if id in books():
        _stop(f"{id} is the name of a book that ships with the program; choose another")
    try:
        put_new(path, skeleton(path, id).encode("utf-8"), folders=True)
    except FileExistsError:
        if is_there(path):
            _stop(f"{printable(path)} is there already; nothing was written")
        _stop(f"cannot write {printable(path)}: its folder is a file")
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or "not a file name").lower()
        _stop(f"cannot write {printable(path)}: {reason}")
    click.echo(
        f"{printable(path)}: fill in each …, then run: hts books {printable(path)}\n"
        "grammar/ADD-A-BOOK.md shows how"
    )


def _own(path: str, edition: str | None, units: System) -> list[Book]:
    """The editions of a book in a file; what is wrong with it is told and ends the program."""
    from hts.limits.books import from_data

    source, file = _read(path)
    if file.data is None:
        for fault in file.faults:
            _tell(source, fault.start, fault.end, fault.message, fault.help)
        count = len(file.faults)
        click.echo(f"{source.name}: {count} error{'s' if count != 1 else ''}", err=True)
        sys.exit(1)
    known = tuple(file.data.get("editions", {})) or (None,)
    wanted = (edition,) if edition is not None else known
    return [_known(partial(from_data, file.data, each, units)) for each in wanted]


def _read(path: str) -> tuple[Source, BookFile]:
    from hts.checking.report.terminal import printable
    from hts.language.model.load import Loader, Unreadable, root_of
    from hts.limits import book_file

    try:
        source = Loader(root_of(path)).read(path)
        return source, book_file.read(source.text)
    except (Unreadable, book_file.MissingExtra) as error:
        _stop(f"cannot read {printable(path)}: {error}")


def _tell(source: Source, start: int, end: int, message: str, help: str) -> None:
    """One fault: place, what is wrong, the line with the part marked, and what to do."""
    from hts.checking.report.terminal import printable

    line, column = source.position(start)
    text = source.line(line)
    end = max(column, min(column + end - start, len(text) + 1))
    marked = f"{text[: column - 1]}>>{text[column - 1 : end - 1]}<<{text[end - 1 :]}"
    click.echo(f"{printable(source.name)}:{line}:{column}: {printable(message)}")
    click.echo(f"    {printable(marked.strip())}")
    if help:
        click.echo(f"    do: {printable(help)}")


def _named(name: str) -> tuple[str, str | None]:
    """A book and the edition named with it, None where none is."""
    from hts.limits.books import books

    match = _EDITION.fullmatch(name)
    if match is None or name in books():
        return name, None
    return match["name"], match["edition"]


def _book(id: str, edition: str | None, units: System, newest: bool = False) -> Book:
    from hts.job.explain.books import editions
    from hts.limits import book

    if edition is None and newest:
        edition = _known(lambda: editions(id))[-1]
    return _known(lambda: book(id, edition, units))


def _known(ask: Callable[[], T]) -> T:
    """The answer; an unknown book or edition is told and ends the program."""
    from hts.checking.report.terminal import printable
    from hts.limits import UnknownBook, UnknownEdition

    try:
        return ask()
    except (UnknownBook, UnknownEdition) as error:
        hint = f"; did you mean {error.suggestion}?" if error.suggestion else ""
        if isinstance(error, UnknownBook):
            hint += "; `hts books` lists them"
        _stop(f"{printable(str(error))}{hint}")


def _stop(message: str) -> NoReturn:
    click.echo(message, err=True)
    sys.exit(2)
