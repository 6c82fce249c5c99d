"""`hts diff`: what changed between two specifications, by meaning."""

from __future__ import annotations

import os
import sys

import click

from hts.base.text.reading import Unreadable, name_below, read_text
from hts.checking.configuration import ConfigurationError, loader
from hts.checking.report.terminal import printable
from hts.cli.colour import colour_option
from hts.cli.completion import file_names
from hts.cli.configured import cannot_use, config_option, configuration
from hts.cli.diff_whole import Revisions, judged_all, revisions_of
from hts.cli.terminal import coloured
from hts.cli.today import day
from hts.job.comparison import Comparison, compare
from hts.job.comparison.approvals import (
    Approval,
    DamagedApprovals,
    Judged,
    approving,
    read_approvals,
    written,
)
from hts.job.comparison.driver import ARGUMENTS, CALLED_BY_GIT, called
from hts.job.comparison.registry import VERDICTS, Verdict
from hts.job.comparison.report import all_specs, document, markdown, text
from hts.job.comparison.report.all_specs import Report
from hts.job.comparison.revisions import CannotRead, Where, full_path, spec_at, where
from hts.language.layout.write import replace_text

NEVER = "never"


@click.command("diff")
@click.argument(
    "sides",
    nargs=-1,
    required=True,
    metavar="[OLD] NEW | REV[..REV] [PATH…]",
    shell_complete=file_names,
)
@colour_option
@click.option(
    "--format",
    "output_format",
    type=click.Choice(["text", "json", "markdown"]),
    default="text",
    help="Format of the changes; markdown is a table for a merge request.",
)
@click.option(
    "--fail-on",
    type=click.Choice([*VERDICTS, NEVER]),
    default="review",
    show_default=True,
    help="Lowest verdict that makes the exit code 1.",
)
@click.option(
    "--approvals", metavar="FILE", default=None, help="File of the changes that have been approved."
)
@click.option(
    "--approve",
    metavar="BY",
    default=None,
    help="Add every change that would fail to the file of --approvals, as approved by BY.",
)
@click.option(
    "--representation",
    is_flag=True,
    help="Also list what is written differently but means the same: units, order, comments.",
)
@click.option(
    "--today",
    metavar="DATE",
    default=None,
    help="Date on which waivers and calibrations of both sides are judged, or now; without it "
    "nothing that depends on the date is told.",
)
@click.option(
    "--most",
    metavar="N",
    type=click.IntRange(min=1000),
    default=None,
    help="Letters of a Markdown page of many specifications at most: the changes of those that ask "
    "for least are left out then, and it says so.",
)
@config_option
def command(
    sides: tuple[str, ...],
    output_format: str,
    fail_on: str,
    approvals: str | None,
    approve: str | None,
    representation: bool,
    today: str | None,
    most: int | None,
    config: str | None,
) -> None:
    """Tell what changed in meaning between two versions, and what each change asks for.

    A change asks for a new approval (re-approve), for a review of what the files do not say
    (review), or for nothing (note).

    Either side is a path, or REV:PATH as git has it (from the top of the repository;
    REV:./PATH from this folder), then with the files it uses from that revision, too. A side that
    is not there, or /dev/null, makes the other one new or removed. One path alone is compared with
    HEAD.

    A revision (REV, REV..REV, or REV...REV from where they parted), or a folder, compares every
    specification that changed or uses something that changed, in one table; PATHs keep it to these.
    REV alone is compared with the working folder. Where git knows a revision, it is meant,
    whatever a file is called.

    \b
    As git's own diff of specifications:
      echo '*.hts diff=hts' >> .gitattributes
      git config diff.hts.command 'hts diff'
    or for one command: GIT_EXTERNAL_DIFF='hts diff' git diff -- '*.hts'
    (git log and git show need --ext-diff).

    Exits 0 when nothing fails, 1 when something does (see --fail-on), 2 when it could not run.
    Called by git it exits 0.
    """
    if CALLED_BY_GIT in os.environ and len(sides) in (1, *ARGUMENTS):
        _for_git(sides, output_format, approvals, config)
        return
    if approve is not None and (approvals is None or not approve.strip()):
        raise click.UsageError("--approve needs a name, and --approvals FILE to write into")
    on = day(today)
    known = _approvals(approvals, may_be_new=approve is not None) if approvals is not None else []
    try:
        found = revisions_of(sides)
    except CannotRead as error:
        raise click.ClickException(printable(str(error))) from None
    if found is not None:
        report = _all(found, known, config, on)
        if approve is not None and approvals is not None:
            new = _approved_in(report, approve.strip(), fail_on)
            _write(approvals, [*known, *new], sum(len(entry.addresses) for entry in new))
            report = _all(found, [*known, *new], config, on)
        _show_all(report, output_format, representation, most)
        fails = any(
            _fails(change.verdict, fail_on)
            for each in report.judgements
            if each.judged is not None
            for change in each.judged.open
        )
        failed = any(each.judged is None for each in report.judgements)
        sys.exit(2 if failed else int(fails))
    comparison = _compared(sides, config, on)
    others = [entry for entry in known if entry.spec and entry.spec != _path(comparison)]
    known = [entry for entry in known if entry not in others]
    judged = Judged(comparison, known)
    if approve is not None and approvals is not None:
        failing = [change for change in judged.open if _fails(change.verdict, fail_on)]
        known += approving(failing, approve.strip())
        _write(approvals, [*others, *known], len(failing))
        judged = Judged(comparison, known)
    _show(judged, output_format, representation)
    sys.exit(int(any(_fails(change.verdict, fail_on) for change in judged.open)))


def _all(found: Revisions, known: list[Approval], config: str | None, today: str | None) -> Report:
    configured = loader(config)
    try:
        return judged_all(found, known, configured, today)
    except ConfigurationError as error:
        raise cannot_use(error) from None
    except CannotRead as error:
        raise click.ClickException(printable(str(error))) from None


def _approved_in(report: Report, by: str, fail_on: str) -> list[Approval]:
    made = []
    for each in report.judgements:
        if each.judged is not None:
            failing = [c for c in each.judged.open if _fails(c.verdict, fail_on)]
            made += approving(failing, by, each.compared.path)
    return made


def _show_all(report: Report, output_format: str, representation: bool, most: int | None) -> None:
    if output_format == "json":
        out = all_specs.as_json(report)
    elif output_format == "markdown":
        out = all_specs.as_markdown(report, most=most)
    else:
        colour = coloured(sys.stdout)
        out = all_specs.as_text(report, colour=colour, representation=representation)
    click.echo(out, nl=False)


def _path(comparison: Comparison) -> str:
    """The path of a specification from the top of its repository, as approvals name it."""
    spec = comparison.new or comparison.old
    assert spec is not None
    return name_below(os.path.realpath(spec.source.path or ""), spec.loader.root)


def _compared(sides: tuple[str, ...], config: str | None, today: str | None) -> Comparison:
    if len(sides) > 2:
        raise click.UsageError("two sides are compared: hts diff OLD NEW")
    new = where(sides[-1])
    old = where(sides[0]) if len(sides) == 2 else Where("HEAD", _from_here(new))
    files = [side.path for side in (new, old) if side.revision is None]
    near = next((path for path in files if path != os.devnull), os.getcwd())
    defaults = configuration(near, config).defaults
    try:
        before, after = spec_at(old, defaults), spec_at(new, defaults)
        same = full_path(old) == full_path(new) if None in (before, after) else True
    except CannotRead as error:
        raise click.ClickException(printable(str(error))) from None
    if before is None and after is None:
        raise click.ClickException(f"there is neither {_named(old)} nor {_named(new)}")
    # A name mistyped would make a whole specification look new.
    for spec, side in ((before, old), (after, new)):
        if spec is None and side.path != os.devnull and not same:
            raise click.ClickException(
                f"there is no {_named(side)}; for an empty side write /dev/null"
            )
    return compare(before, after, today=today)


def _from_here(side: Where) -> str:
    if side.revision is not None:
        raise click.UsageError("one side alone is a path, which is compared with HEAD")
    relative = os.path.relpath(side.path).replace(os.sep, "/")
    return relative if relative.startswith("../") else f"./{relative}"


def _named(side: Where) -> str:
    name = side.path if side.revision is None else f"{side.revision}:{side.path}"
    return printable(name)


def _fails(verdict: Verdict, fail_on: str) -> bool:
    grave: tuple[str, ...] = VERDICTS
    return fail_on != NEVER and grave.index(verdict) <= grave.index(fail_on)


def _show(judged: Judged, output_format: str, representation: bool) -> None:
    if output_format == "json":
        out = document.write(judged)
    elif output_format == "markdown":
        out = markdown.write(judged)
    else:
        colour = coloured(sys.stdout)
        out = text.write(judged, colour=colour, representation=representation)
    click.echo(out, nl=False)


# Approvals ---------------------------------------------------------------------------------------


def _approvals(path: str, may_be_new: bool) -> list[Approval]:
    if may_be_new and not os.path.exists(path):
        return []
    try:
        return read_approvals(read_text(path), path)
    except DamagedApprovals as error:
        raise click.ClickException(printable(str(error))) from None
    except Unreadable as error:
        raise click.ClickException(printable(f"{path}: {error}")) from None


def _write(path: str, approvals: list[Approval], count: int) -> None:
    """Writes the file; `count` approvals are new in it."""
    try:
        replace_text(path, written(approvals))
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise click.ClickException(f"cannot write {printable(path)}: {reason}") from None
    click.echo(f"{count} change{'s' if count != 1 else ''} approved in {printable(path)}", err=True)


# For git -----------------------------------------------------------------------------------------


def _for_git(
    arguments: tuple[str, ...], output_format: str, approvals: str | None, config: str | None
) -> None:
    """git stops its whole diff at a program that fails, so what goes wrong here is only told."""
    path = printable(arguments[0])
    if len(arguments) == 1:
        click.echo(f"{path}: not merged yet")
        return
    if not arguments[0].endswith(".hts"):
        click.echo(f"{path}: not a specification; give git this command for *.hts only")
        return
    try:
        known = _approvals(approvals, may_be_new=False) if approvals is not None else []
        found = called(arguments, configuration(arguments[0], config).defaults)
    except (CannotRead, click.ClickException) as error:
        click.echo(f"cannot compare {path}: {printable(str(error))}")
        return
    for note in found.notes:
        click.echo(f"note: {printable(note)}")
    if found.old is None and found.new is None:
        return
    _show(Judged(compare(found.old, found.new), known), output_format, representation=True)
