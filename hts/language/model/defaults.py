"""What holds for a text that does not say: set by a team for all its specifications."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from hts.base.fonts import Font


class DefaultBook(NamedTuple):
    """A book a text without `governed by` stands under; ``origin`` is where that is set."""

    book: str
    edition: str | None
    origin: str


class Quieted(NamedTuple):
    """Rules to leave out for a text, or count for less: ``origin`` is the place that says so
    (``hts.toml:3:1``), ``words`` what it does."""

    origin: str
    words: str

    @property
    def file(self) -> str:
        return self.origin.rsplit(":", 2)[0]

    @property
    def line(self) -> int:
        return int(self.origin.rsplit(":", 2)[1])

    def __str__(self) -> str:
        return f"{self.origin} {self.words}"


class Defaults(NamedTuple):
    """``books`` hold for a job without `governed by`, ``units`` (the words of `show`) for one
    without `show`. ``quieted`` is told on every report and paper. ``font`` is one of the team's
    own, for letters the shipped ones lack."""

    books: tuple[DefaultBook, ...] = ()
    units: str | None = None
    quieted: tuple[Quieted, ...] = ()
    font: Font | None = None

    def by_entry(self) -> Mapping[Any, Mapping[str, Any]]:
        """The values as hts.language.vocabulary.reader takes them: by entry and field."""
        if not self.books and self.units is None:
            return {}
        from hts.language.vocabulary.job import Job
        from hts.language.vocabulary.types import Edition

        values: dict[str, Any] = {}
        if self.books:
            values["governed_by"] = [
                Edition(named.book, named.edition, 0, 0) for named in self.books
            ]
        if self.units is not None:
            values["show"] = self.units
        return {Job: values}


NO_DEFAULTS = Defaults()
