"""What can be set, with the values that hold where nothing is."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from hts.base.findings import ERROR, Severity
from hts.base.fonts import Font
from hts.checking.checker.setting import Excluded, Setting
from hts.language.model.defaults import DefaultBook, Defaults, Quieted


class ConfigurationError(Exception):
    """A configuration that cannot be used: where, why, and what to do about it."""

    def __init__(self, place: str, cause: str, remedy: str = "") -> None:
        self.place = place
        self.cause = cause
        self.remedy = remedy
        super().__init__(f"{place}: {cause}" + (f"\n  help: {remedy}" if remedy else ""))


class Configuration(NamedTuple):
    """What is set, and where.

    ``packs_left_out`` are rule packs that the user wanted not to run.
    ``select``, ``ignore`` and ``severity`` are as written; ``ignored`` are the codes left out
    because of them and ``severities`` pairs of code and severity. ``units`` are the words of
    `show`; ``sheet`` is a name of hts.paper.sheet.SIZES; ``logo`` is a path seen from the
    folder of the file it is set in; ``font`` is for letters the shipped fonts lack. ``today`` is
    the ISO date that waivers and calibrations are judged on. ``labels`` holds what is set of
    hts.paper.labels.Grid, by the names of its fields, lengths in mm. ``origin`` gives the place
    (``hts.toml:3:1``) of each key that is set, under its name as written (``labels.gap-down``).
    ``digest`` covers what a check depends on, and is "" where nothing of that is set.
    """

    path: str | None = None
    select: tuple[str, ...] = ()
    ignore: tuple[str, ...] = ()
    ignored: frozenset[str] = frozenset()
    severity: Mapping[str, str] = {}
    severities: tuple[tuple[str, Severity], ...] = ()
    exclude: tuple[str, ...] = ()
    books: tuple[DefaultBook, ...] = ()
    rule_packs: tuple[str, ...] = ()
    packs_left_out: tuple[str, ...] = ()
    units: str | None = None
    sheet: str = "A4"
    company: str = ""
    logo: str = ""
    font: Font | None = None
    labels: Mapping[str, float] = {}
    today: str | None = None
    origin: Mapping[str, str] = {}
    digest: str = ""

    @property
    def defaults(self) -> Defaults:
        """What holds for a text that does not say: pass it to hts.language.model.Spec."""
        return Defaults(self.books, self.units, tuple(self._quieted()), self.font)

    def _quieted(self) -> Iterator[Quieted]:
        if self.select:
            words = f"counts these rules only: {', '.join(self.select)}"
            yield Quieted(self.origin["select"], words)
        if self.ignore:
            yield Quieted(self.origin["ignore"], f"leaves out: {', '.join(self.ignore)}")
        if self.packs_left_out:
            words = f"names rule packs that did not run: {', '.join(self.packs_left_out)}"
            yield Quieted(self.origin["rule-packs"], words)
        for rule, severity in self.severity.items():
            if severity != ERROR:
                words = f"lets {rule} count as {severity} only"
                yield Quieted(self.origin[f"severity.{rule}"], words)

    @property
    def setting(self) -> Setting:
        """What changes about a check."""
        return Setting(
            self.defaults,
            self.ignored,
            self.severities,
            self.rule_packs,
            self.digest,
            self._excluded(),
        )

    def _excluded(self) -> Excluded | None:
        if not self.exclude or self.path is None:
            return None
        words = f"leaves out the files: {', '.join(self.exclude)}"
        told = Quieted(self.origin["exclude"], words)
        return Excluded(self.exclude, os.path.dirname(os.path.realpath(self.path)), told)
