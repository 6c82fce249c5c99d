"""`hts fmt`: the one canonical layout."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator

import click

from hts.base.findings import Report
from hts.base.text.reading import root_of
from hts.checking.checker.check_paths import (
    SUFFIX,
    Results,
    UncheckedFile,
    cache_folder,
    files_below,
    lies_in_repository,
)
from hts.checking.checker.left_out import Ignored
from hts.checking.configuration import Configuration, ConfigurationError, loader
from hts.checking.configuration.allowed import without_packs
from hts.checking.report import terminal
from hts.checking.report.terminal import printable
from hts.cli.colour import colour_option
from hts.cli.completion import file_names
from hts.cli.configured import cannot_use, config_alone
from hts.cli.layouts import Known, LaidOut, lay_out, lay_out_all
from hts.cli.terminal import coloured
from hts.language.layout.write import replace_text
from hts.language.model.load import Unreadable, read_text


@click.command("fmt")
@click.argument("paths", nargs=-1, required=True, metavar="PATH…", shell_complete=file_names)
@config_alone
@colour_option
@click.option("--check", is_flag=True, help="Write nothing; list the files that would change.")
@click.option("--diff", is_flag=True, help="Write nothing; show what would change.")
@click.option(
    "--stdin-path",
    metavar="PATH",
    default=None,
    help="Path that the text read from standard input belongs to.",
)
@click.option(
    "--cache/--no-cache",
    "keeps",
    default=True,
    help="Keep between runs which texts are laid out; the outcome is the same.",
)
def command(
    paths: tuple[str, ...],
    config: str | None,
    check: bool,
    diff: bool,
    stdin_path: str | None,
    keeps: bool,
) -> None:
    """Lay specifications out in the one layout of the language.

    Of a folder all *.hts files in and below it are laid out; the text of standard input (-) goes
    to standard output. White space changes, and °C, °F and ± become degC, degF and +/-; nothing
    else does. A file with syntax errors, or with the marks of a merge, is left as it is. Exits 0
    when all is laid out, 1 when a file has errors or, with --check or --diff, would change, 2 when
    it could not run.
    """
    run = _Run(
        config=config,
        writes=not (check or diff),
        shows=diff,
        text_out="-" in paths,
        known=_known(paths, keeps),
    )
    for path in paths:
        if path == "-":
            run.standard_input(stdin_path)
        else:
            run.files(_files(path, run))
    run.known.save()
    sys.exit(run.finish())


def _known(paths: Iterable[str], keeps: bool) -> Known:
    """What is kept from other runs: nothing where a change of the repository could forge it."""
    folder = cache_folder() if keeps else None
    roots = {root_of(path) for path in paths if path != "-" and os.path.exists(path)}
    if folder is not None and any(lies_in_repository(folder, root) for root in roots):
        folder = None
    return Known(folder)


def _files(path: str, run: _Run) -> Iterator[str]:
    if not os.path.isdir(path):
        yield path
        return
    found = list(files_below(path, Ignored(path)))
    if not found:
        run.failures.append(UncheckedFile(path, f"there is no {SUFFIX} file in this folder"))
    for each in found:
        if isinstance(each, UncheckedFile):
            run.failures.append(each)
        elif not run.configured(each).setting.excludes(each):
            yield each


#: Texts held at once, so that memory does not grow with their number.
_AT_ONCE = 4096


class _Run:
    """Lays out one text after the other and remembers what came of it."""

    def __init__(
        self, config: str | None, writes: bool, shows: bool, text_out: bool, known: Known
    ) -> None:
        self.known = known
        self.writes = writes
        self.shows = shows
        #: Standard output belongs to the text, so nothing else is said there.
        self.quiet = text_out and writes
        self.report = Report()
        self.failures: list[UncheckedFile] = []
        #: Real path and name of every text that was read.
        self.seen: dict[str, str] = {}
        self.changed = 0
        self._configured = loader(config)

    def configured(self, path: str) -> Configuration:
        """The settings that hold for a file."""
        try:
            with without_packs():
                return self._configured(path)
        except ConfigurationError as error:
            raise cannot_use(error) from None

    def files(self, paths: Iterable[str]) -> None:
        """Lays out files, each once."""
        waiting: list[tuple[str, str]] = []
        for path in paths:
            real = os.path.realpath(path)
            if real in self.seen:
                continue
            try:
                text = read_text(path)
            except Unreadable as error:
                self.failures.append(UncheckedFile(path, str(error)))
                continue
            self.seen[real] = path
            if not self.known.has(text):
                waiting.append((path, text))
            if len(waiting) == _AT_ONCE:
                self._all(waiting)
                waiting = []
        self._all(waiting)

    def _all(self, texts: list[tuple[str, str]]) -> None:
        done = 0
        try:
            for (path, text), made in zip(texts, lay_out_all(texts), strict=True):
                self._one(path, text, made)
                done += 1
        except ChildProcessError as error:
            self.failures += [UncheckedFile(path, str(error)) for path, _ in texts[done:]]

    def _one(self, path: str, text: str, made: LaidOut) -> None:
        for finding in made.findings:
            self.report.add(finding)
        after = made.text
        if after is None:
            return
        if after == text:
            self.known.add(text)
            return
        if self.writes:
            try:
                replace_text(path, after)
            except OSError as error:
                reason = (error.strerror or str(error)).lower()
                self.failures.append(UncheckedFile(path, f"cannot be written: {reason}"))
                return
            self.known.add(after)
        self._tell(path, text, after)

    def standard_input(self, path: str | None) -> None:
        name = path or "<stdin>"
        data = sys.stdin.buffer.read()
        try:
            text = data.decode("utf-8")
        except UnicodeDecodeError as error:
            self.failures.append(UncheckedFile(name, f"not UTF-8 text (byte {error.start})"))
            return
        self.seen["-"] = name
        made = lay_out((name, text))
        for finding in made.findings:
            self.report.add(finding)
        after = made.text
        if after is None:
            return
        if self.writes:
            sys.stdout.buffer.write(after.encode("utf-8"))
        if after != text:
            self._tell(name, text, after)

    def _tell(self, name: str, before: str, after: str) -> None:
        self.changed += 1
        if self.shows:
            click.echo(_difference(name, before, after), nl=False)
        elif not self.quiet:
            click.echo(f"{self._verb}: {printable(name)}")

    @property
    def _verb(self) -> str:
        return "changed" if self.writes else "would change"

    def finish(self) -> int:
        """Says what is left to say; the exit code."""
        findings = self.report.findings
        if findings:
            results = Results()
            results.findings = findings
            results.checked = list(self.seen.values())
            colour = coloured(sys.stderr)
            click.echo(terminal.write(results, colour=colour), nl=False, err=True)
        for failure in self.failures:
            click.echo(f"error: {printable(failure.name)}: {failure.reason}", err=True)
        count = len(self.seen)
        if count and not (self.shows or self.quiet):
            click.echo(f"{self.changed} of {count} file{'s' if count > 1 else ''} {self._verb}")
        if self.failures:
            return 2
        return int(bool(findings) or (bool(self.changed) and not self.writes))


def _difference(name: str, before: str, after: str) -> str:
    """A unified diff, made safe to look at where it goes to a terminal."""
    import difflib

    lines: list[str] = []
    for line in difflib.unified_diff(_lines(before), _lines(after), name, name):
        body, end = line.removesuffix("\n"), "\n"
        if not line.endswith("\n"):
            end = "\n\\ No newline at end of file\n"
        lines.append((printable(body) if sys.stdout.isatty() else body) + end)
    return "".join(lines)


def _lines(text: str) -> list[str]:
    lines = [line + "\n" for line in text.split("\n")]
    lines[-1] = lines[-1].removesuffix("\n")
    return lines if lines[-1] else lines[:-1]
