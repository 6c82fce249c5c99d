"""`hts language`: the reference of the language at a terminal, and complete examples."""

from __future__ import annotations

import shutil
import sys
from typing import TYPE_CHECKING

import click

from hts.base.leftovers import is_there, put_new_folder
from hts.base.shipped import shipped

if TYPE_CHECKING:
    from hts.job.explain.reference import Section


@click.command("language")
@click.argument("entry", nargs=-1, metavar="[ENTRY]")
@click.option(
    "--examples",
    metavar="FOLDER",
    default=None,
    help="Copy complete jobs and their library into a new folder.",
)
def command(entry: tuple[str, ...], examples: str | None) -> None:
    """Explain an entry of the language, or list them all.

    ENTRY is what an entry begins with (hold, thermocouples, start of control), the words of a
    clause, or the title of a chapter (units).

    The examples play on an invented plant; make a copy and check it.
    """
    if examples is not None:
        _copy(examples)
        return
    from hts.checking.report.terminal import printable
    from hts.job.explain import reference
    from hts.language.vocabulary.suggest import nearest

    path = shipped("grammar", "LANGUAGE.md")
    if path is None:
        raise click.ClickException("the reference is not installed with this program")
    with open(path, encoding="utf-8") as file:
        known = reference.sections(file.read())
    wanted = " ".join(entry)
    if not wanted:
        _list(known)
        return
    found, listing = reference.look_up(known, wanted)
    for section in found:
        click.echo(f"{section.title}\n\n{reference.plain(section.text)}\n")
    if listing:
        click.echo(f"{wanted} stands in:\n")
        by_title = {section.title: section for section in known}
        for title in listing:
            click.echo(f"  {title}: {reference.row(by_title[title], wanted)}")
    if found or listing:
        return
    words = [word for section in known for word in (section.title, *section.words)]
    guess = nearest(wanted, dict.fromkeys(words))
    hint = f"; did you mean {guess}?" if guess else "; `hts language` lists the entries"
    click.echo(f"the language has no {printable(wanted)!r}{hint}", err=True)
    sys.exit(2)


def _list(known: list[Section]) -> None:
    chapters = [each.title for each in known if not each.is_entry]
    click.echo(f"chapters: {', '.join(chapters)}\n")
    entries = [each for each in known if each.is_entry]
    width = max(len(each.title) for each in entries)
    for each in entries:
        click.echo(f"{each.title:<{width}}  {each.meaning}")


def _copy(folder: str) -> None:
    """Copies the good examples, all or none."""
    source = shipped("examples")
    if source is None:
        raise click.ClickException("the examples are not installed with this program")
    if is_there(folder):
        raise click.ClickException(f"{folder} is there already; name a new folder")
    without = shutil.ignore_patterns("broken", ".*")
    try:
        put_new_folder(folder, lambda new: shutil.copytree(source, new, ignore=without))
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise click.ClickException(f"cannot write {folder}: {reason}") from None
    click.echo(f"{folder}: run hts check {folder}")
