"""A specification: one file with all it uses, every name resolved."""

from __future__ import annotations

import os

from hts.base.findings import Finding, Report
from hts.base.text import Source
from hts.language.model.defaults import NO_DEFAULTS, Defaults
from hts.language.model.found_on import text_of, unknown_joints
from hts.language.model.joint import Joint
from hts.language.model.load import Library, LoadedBook, Loader, NotUsable, Unreadable
from hts.language.model.resolve import Resolver
from hts.language.vocabulary.job import Waive
from hts.language.vocabulary.mistakes import UNUSABLE_FILE
from hts.language.vocabulary.procedure import Procedure
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.weld_list import WeldList


class Spec:
    """``joints`` holds every weld of this file by name, those of used files included where a
    joint is begun `like` one of them or a cycle is for one; ``own`` are the file's own."""

    __slots__ = (
        "beside",
        "books",
        "defaults",
        "file",
        "joints",
        "libraries",
        "loader",
        "own",
        "procedures",
        "report",
        "source",
        "waivers",
    )

    def __init__(self, source: Source, loader: Loader, defaults: Defaults = NO_DEFAULTS) -> None:
        """Reads and resolves; everything wrong with the language is in ``report`` afterwards.

        ``defaults`` count where the job does not say the like itself.
        """
        self.source = source
        self.loader = loader
        self.defaults = defaults
        self.report = Report()
        loader.font = defaults.font
        self.file: File = loader.file(source, self.report, defaults)
        self.libraries: list[Library] = loader.used(self.file, self.report)
        #: Rule books of the repository that the text, or a file it uses, brings along.
        self.books: list[LoadedBook] = loader.books(
            (self.file, *(library.file for library in self.libraries)), self.report
        )
        resolver = Resolver(self.file, [library.file for library in self.libraries], self.report)
        self.joints: dict[str, Joint] = resolver.joints
        self.own: list[Joint] = resolver.own
        #: The procedures the job follows; for a library, all it holds.
        self.procedures: list[Procedure] = resolver.procedures
        self.waivers: list[Waive] = self.file.waivers
        #: The specification that a results file lies beside.
        self.beside: Spec | None = self._beside()
        both = [self] if self.beside is None else [self, self.beside]
        # A file that could not be read may hold any joint.
        if not any(f.kind is UNUSABLE_FILE for each in both for f in each.findings):
            known = {name for each in both for name in each.joints}
            unknown_joints(self.file, known, self.report)

    def _beside(self) -> Spec | None:
        path = text_of(self.source.path)
        if path is None:
            return None
        try:
            folder, name = os.path.split(path)
            self.loader.find(name, folder)
            return Spec(self.loader.read(path), self.loader, self.defaults)
        except (NotUsable, Unreadable):
            return None

    @property
    def findings(self) -> list[Finding]:
        return self.report.findings

    def __repr__(self) -> str:
        joints = ", ".join(self.joints) or "no joint"
        errors = sum(1 for finding in self.findings if finding.severity == "error")
        wrong = f", {errors} error{'s' if errors > 1 else ''} of language" if errors else ""
        return f"<Spec {self.source.name}: {joints}{wrong}>"

    @property
    def sources(self) -> list[Source]:
        """The text itself and the texts it uses."""
        return [
            self.source,
            *(library.file.source for library in self.libraries),
            *(book.source for book in self.books),
        ]

    @property
    def weld_lists(self) -> list[WeldList]:
        """The weld lists of the text and of those it uses."""
        files = (self.file, *(library.file for library in self.libraries))
        return [listed for file in files for listed in file.weld_lists]

    @property
    def tables(self) -> list[Source]:
        """The tables of all weld lists, each once."""
        found = [listed.table for listed in self.weld_lists if listed.table is not None]
        return list({table.path: table for table in found}.values())
