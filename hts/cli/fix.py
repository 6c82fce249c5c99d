"""`hts check --fix` and `--offer`: findings mended, as far as that is proved."""

from __future__ import annotations

import difflib
import os
from collections.abc import Callable

import click

from hts.base.findings import OFFERED, Finding, Fix
from hts.base.text import BYTE_ORDER_MARK, Source
from hts.base.text.reading import Unreadable, read_text, root_of
from hts.checking.checker.tasks import files_below
from hts.checking.configuration import Configuration
from hts.checking.report.terminal import printable, printable_lines
from hts.language.layout.write import replace_text
from hts.language.model.load import Loader
from hts.language.model.spec import Spec


def mend_layout(path: str, configured: Callable[[str], Configuration], today: str | None) -> int:
    """Mends the layout of a file, or of all files of a folder; the number of findings mended.

    Raises click.ClickException for what cannot be written.
    """
    if os.path.isdir(path):
        files = [each for each in files_below(path) if isinstance(each, str)]
        return sum(mend_layout(each, configured, today) for each in files)
    from hts.editor.proof import laid_right

    try:
        whole = read_text(path)
    except Unreadable:
        # The check tells it.
        return 0
    configuration = configured(path)
    spec = _spec(path, whole, configuration)
    text, count = laid_right(spec, configuration.setting, today)
    if count:
        _write(path, whole, text)
        click.echo(
            f"mended: {printable(path)} ({count} of the layout, the meaning is the same)", err=True
        )
    return count


def offer(
    path: str, wanted: str, configuration: Configuration, today: str | None, *, writes: bool
) -> None:
    """Shows one fix as a diff with what it changes by meaning, and ``writes`` it if asked.

    ``wanted`` is CODE@ADDRESS, with #1, #2 … behind it where there are several; LIST shows all.
    Raises click.ClickException where there is no such offer, and where it is refused.
    """
    from hts.editor.proof import Bench, Refused

    try:
        whole = read_text(path)
    except Unreadable as error:
        raise click.ClickException(f"{printable(path)}: {error}") from None
    bench = Bench(_spec(path, whole, configuration), configuration.setting, today)
    named = _named([(f, x) for f, x in bench.offers() if x.kind == OFFERED])
    if wanted.upper() == "LIST":
        for name, (finding, fix) in named.items():
            click.echo(f"{printable(name)}  {printable(fix.title)}: {printable(finding.message)}")
        if not named:
            click.echo("nothing is offered: what was found only a person can mend", err=True)
        return
    if wanted not in named:
        there = ", ".join(named) or "none"
        raise click.ClickException(
            f"there is no offer {printable(wanted)}; there are: {printable(there)}"
        )
    finding, fix = named[wanted]
    try:
        proved = bench.prove(finding, fix)
    except Refused as refused:
        raise click.ClickException(
            f"{printable(fix.title)} is not applied: {printable(str(refused))}"
        ) from None
    before = bench.spec.source.text
    lines = difflib.unified_diff(
        before.splitlines(keepends=True), proved.text.splitlines(keepends=True), path, path
    )
    click.echo(printable_lines("".join(lines)), nl=False)
    for verdict in proved.verdicts:
        click.echo(printable(verdict))
    for each in proved.then:
        click.echo(f"found then: {each.kind.code} {each.kind.name}: {printable(each.message)}")
    if writes:
        _write(path, whole, proved.text)
        click.echo(f"written: {printable(path)}", err=True)
    else:
        click.echo("nothing is written; add --fix to write it", err=True)


def _named(offers: list[tuple[Finding, Fix]]) -> dict[str, tuple[Finding, Fix]]:
    """Each offer by its name; where several have one, each with a number: none is preferred."""
    by_name: dict[str, list[tuple[Finding, Fix]]] = {}
    for finding, fix in offers:
        address = finding.address or _address(finding)
        name = f"{finding.kind.code}@{address}" if address else finding.kind.code
        by_name.setdefault(name, []).append((finding, fix))
    return {
        name if len(several) == 1 else f"{name}#{number}": each
        for name, several in by_name.items()
        for number, each in enumerate(several, 1)
    }


def _address(finding: Finding) -> str:
    """The address of the entry a finding lies in, which could not be read far enough to have one
    of its own."""
    from hts.editor.place import Text

    place = Text(finding.source).at(finding.at.span.start)
    return place.address if place is not None else ""


def _spec(path: str, whole: str, configuration: Configuration) -> Spec:
    loader = Loader(root_of(path))
    text = whole.removeprefix(BYTE_ORDER_MARK)
    source = Source(text, loader.name(path), os.path.abspath(path))
    return Spec(source, loader, configuration.defaults)


def _write(path: str, before: str, text: str) -> None:
    """Writes a file whole or not at all; not through a link that leads out of the repository, and
    not over what somebody else has written meanwhile."""
    mark = BYTE_ORDER_MARK if before.startswith(BYTE_ORDER_MARK) else ""
    root = root_of(path)
    if os.path.commonpath([os.path.realpath(path), os.path.realpath(root)]) != os.path.realpath(
        root
    ):
        raise click.ClickException(f"{printable(path)} leads out of the repository: not written")
    try:
        if read_text(path) != before:
            raise click.ClickException(f"{printable(path)} was changed meanwhile: not written")
        replace_text(path, mark + text)
    except (OSError, Unreadable) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise click.ClickException(f"{printable(path)}: {reason.lower()}") from None
