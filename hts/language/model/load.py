"""Reads files and the files they use; nothing outside the repository root is ever read."""

from __future__ import annotations

import os
from collections.abc import Iterable
from typing import TYPE_CHECKING

from hts.base.findings import Finding, Label, Report
from hts.base.fonts import Font
from hts.base.text import BYTE_ORDER_MARK, Source
from hts.base.text.reading import LARGEST, TABLE_ENDINGS, Unreadable, name_below, read_text, root_of
from hts.language.model.defaults import NO_DEFAULTS, Defaults
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.hidden import hidden_characters
from hts.language.vocabulary.job import OwnBook, Use
from hts.language.vocabulary.letters import missing_letters
from hts.language.vocabulary.reader import Reader
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.weld_list import WeldList
from hts.syntax import parse

if TYPE_CHECKING:
    from hts.limits.book_file import BookFile

__all__ = ["LARGEST", "VERSION", "Library", "Loader", "Unreadable", "read_text", "root_of"]

VERSION = 1


class NotUsable(Exception):
    """A path that `use` may not name: why, and what to do."""

    def __init__(self, message: str, help: str) -> None:
        super().__init__(message)
        self.help = help


class Library:
    """A file that another one uses, with the findings of its own text."""

    __slots__ = ("file", "findings", "path", "uses")

    def __init__(self, path: str, file: File, findings: list[Finding]) -> None:
        self.path = path
        self.file = file
        self.findings = findings
        self.uses: list[Library] | None = None


class LoadedBook:
    """A rule book of the repository's own: its text, and what that text says or lacks."""

    __slots__ = ("entry", "file", "path", "source")

    def __init__(self, path: str, source: Source, file: BookFile, entry: OwnBook) -> None:
        self.path = path
        self.source = source
        self.file = file
        self.entry = entry


class Loader:
    """Reads files below one root; a library used by many specifications is read once."""

    def __init__(self, root: str) -> None:
        """``root``: the repository root, beyond which no `use` may lead."""
        self.root = os.path.realpath(root)
        #: Of the specification that is read: letters it has are no finding.
        self.font: Font | None = None
        self._libraries: dict[tuple[str, Font | None], Library | Unreadable] = {}
        self._books: dict[str, tuple[Source, BookFile] | Exception] = {}

    def name(self, path: str) -> str:
        """How findings call a file: its path from the root, with forward slashes."""
        return name_below(path, self.root)

    def read(self, path: str) -> Source:
        """The text of a file. Raises Unreadable."""
        text = self.text(path).removeprefix(BYTE_ORDER_MARK)
        return Source(text, self.name(path), os.path.abspath(path))

    # What a loader of a revision answers from there ---------------------------------------------

    def text(self, path: str) -> str:
        """The text of a file as it lies there. Raises Unreadable."""
        return read_text(path)

    def real(self, path: str) -> str:
        """Where a path leads, links followed."""
        return os.path.realpath(path)

    def has(self, path: str) -> bool:
        """Whether there is a file at a path."""
        return os.path.isfile(path)

    # --------------------------------------------------------------------------------------------

    def file(self, source: Source, report: Report, defaults: Defaults = NO_DEFAULTS) -> File:
        """A source read into entries."""
        tree = parse(source, report)
        hidden_characters(source, report)
        missing_letters(tree, report, self.font)
        file = Reader(source, report, File, defaults.by_entry()).read(tree.entries)
        assert isinstance(file, File)
        version = file.version
        if version is not None and version.number not in (None, VERSION):
            report.add(
                Finding(
                    mistakes.UNKNOWN_VERSION,
                    f"this program knows version {VERSION} of the language",
                    Label(version.place()),
                    help=f"write spec {VERSION}",
                )
            )
        for listed in file.weld_lists:
            self._weld_list(file, listed, report)
        return file

    def _weld_list(self, file: File, listed: WeldList, report: Report) -> None:
        """Reads the table of a weld list; its rows become joints of the file."""
        if listed.path is None or not isinstance(listed.name, str):
            return
        whole, listed.sound = listed.sound, False
        path = self._path(file, listed, report)
        if path is None:
            return
        if not path.lower().endswith(TABLE_ENDINGS):
            self._say(
                report,
                listed,
                f"{listed.path!r} is not a table as text",
                "save it from the spreadsheet as CSV, and name that file",
            )
            return
        from hts.language.rows.read import read_weld_list  # wanted by texts with a list only

        try:
            source = self.read(path)
        except Unreadable as error:
            self._say(
                report,
                listed,
                f"{listed.path!r}: {error}",
                "save it from the spreadsheet as CSV with the encoding UTF-8"
                if "UTF-8" in str(error)
                else "",
            )
            return
        listed.sound = whole
        read_weld_list(listed, source, File, report, self.font)
        file.joints = [*file.joints, *listed.joints]

    def used(self, file: File, report: Report) -> list[Library]:
        """The libraries a file uses, in the order named, each once, their own uses after them."""
        found: dict[str, Library] = {}
        self._collect(file, report, found, (file.source.path or "",))
        return list(found.values())

    def books(self, files: Iterable[File], report: Report) -> list[LoadedBook]:
        """The rule books that files say are theirs, each once, in the order named."""
        found: dict[str, LoadedBook] = {}
        for file in files:
            for entry in file.books:
                path = self._path(file, entry, report) if entry.path is not None else None
                if path is None or path in found:
                    continue
                made = self._book(path)
                if isinstance(made, Exception):
                    self._say(report, entry, f"{entry.path!r}: {made}", "")
                    continue
                found[path] = LoadedBook(path, *made, entry)
        return list(found.values())

    def _book(self, path: str) -> tuple[Source, BookFile] | Exception:
        if path not in self._books:
            from hts.limits import book_file

            try:
                source = self.read(path)
                self._books[path] = source, book_file.read(source.text)
            except (Unreadable, book_file.MissingExtra) as error:
                self._books[path] = error
        return self._books[path]

    def _collect(
        self, file: File, report: Report, found: dict[str, Library], chain: tuple[str, ...]
    ) -> None:
        for use in file.uses:
            if use.path is None:
                continue
            path = self._path(file, use, report)
            if path is None:
                continue
            if path in chain:
                self._say(
                    report,
                    use,
                    f"{use.path!r} is already being read: files that use each other",
                    "remove one of the `use` lines",
                )
                continue
            library = self._library(path)
            if isinstance(library, Unreadable):
                self._say(report, use, f"{use.path!r}: {library}", "")
                continue
            if path not in found:
                found[path] = library
                self._collect(library.file, report, found, (*chain, path))

    def _library(self, path: str) -> Library | Unreadable:
        known = self._libraries.get((path, self.font))
        if known is None:
            report = Report()
            try:
                known = Library(path, self.file(self.read(path), report), report.findings)
            except Unreadable as error:
                known = error
            self._libraries[path, self.font] = known
        return known

    def _path(self, file: File, use: Use | OwnBook | WeldList, report: Report) -> str | None:
        """Absolute path of a used file, None (with a finding) where it may not be used."""
        if use.path is None:
            return None
        folder = self.root if file.source.path is None else os.path.dirname(file.source.path)
        try:
            return self.find(use.path, folder, use.example.removesuffix(" { … }"))
        except NotUsable as error:
            self._say(report, use, str(error), error.help)
            return None

    def find(self, text: str, folder: str, example: str = Use.example) -> str:
        """Real path of the file that an entry such as ``example`` names, seen from a folder.
        Raises NotUsable."""
        if os.path.isabs(text) or "\\" in text or "\0" in text or ":" in text:
            raise NotUsable(
                f"{text!r} is not a relative path with forward slashes",
                f"write, for example, {example}",
            )
        # Links are followed before the comparison, so that none leads out.
        real = self.real(os.path.normpath(os.path.join(folder, text)))
        if os.path.commonpath([real, self.root]) != self.root:
            raise NotUsable(
                f"{text!r} leads outside the repository", "keep shared files inside the repository"
            )
        if not self.has(real):
            raise NotUsable(
                f"there is no file {text!r}", "the path is relative to the folder of this file"
            )
        return real

    def _say(self, report: Report, use: Use | OwnBook | WeldList, message: str, help: str) -> None:
        use.sound = False
        report.add(Finding(mistakes.UNUSABLE_FILE, message, Label(use.place("path")), help=help))
