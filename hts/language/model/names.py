"""The names a specification declares, and what each stands for."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from hts.base.findings import Finding, Label, Report
from hts.base.text import Span
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.job import Use
from hts.language.vocabulary.types import Reference

#: What a file at hand may well put in the place of what a library has: its own set on site.
_REPLACED = ("joint", "weld list", "recorder", "controller", "power source")


class Names:
    """Things by kind and name; the file's own come before those of the files it uses."""

    def __init__(self, report: Report, uses: Iterable[Use] = ()) -> None:
        self.report = report
        #: A used file that could not be read may hold any name that is not found.
        self._incomplete = any(f.kind is mistakes.UNUSABLE_FILE for f in report.findings)
        self._incomplete = self._incomplete or any(use.path is None for use in uses)
        self._known: dict[str, dict[str, tuple[Any, Span]]] = {}

    def declare(self, what: str, entries: Iterable[tuple[str, Any, Span]], own: bool) -> None:
        """Adds things of one kind. A second thing of a name in one file is a finding; in a used
        file it stands behind the file's own."""
        known = self._known.setdefault(what, {})
        fresh: dict[str, tuple[Any, Span]] = {}
        for name, thing, at in entries:
            if name in fresh:
                self.report.add(
                    Finding(
                        mistakes.REPEATED_NAME,
                        f"there are two {what}s named {name}",
                        Label(at),
                        address=name,
                        others=[Label(fresh[name][1], "the first one")],
                        help="give each a name of its own",
                    )
                )
                continue
            fresh[name] = (thing, at)
        for name, found in fresh.items():
            if own and name in known and what not in _REPLACED:
                self._of_two_files(what, name, found[1], known[name][1])
            if own or name not in known:
                known[name] = found

    def _of_two_files(self, what: str, name: str, at: Span, other: Span) -> None:
        self.report.add(
            Finding(
                mistakes.NAME_OF_TWO_FILES,
                f"a {what} {name} is declared in a file that is used, too; this one counts",
                Label(at),
                address=name,
                others=[Label(other, "the other one")],
            )
        )

    def find(self, what: str, name: str) -> Any | None:
        found = self._known.get(what, {}).get(name)
        return found[0] if found else None

    def all(self, what: str) -> list[Any]:
        return [thing for thing, _ in self._known.get(what, {}).values()]

    def resolve(self, reference: Reference | None, owner: Entry) -> Any | None:
        """What a reference stands for; a finding, and None, where nothing has the name."""
        if reference is None:
            return None
        found = self.find(reference.what, reference.name)
        if found is None:
            owner.sound = False
            if not self._incomplete:
                self.unknown(reference, owner, self._known.get(reference.what, {}))
            return None
        reference.target = found
        return found

    def unknown(self, reference: Reference, owner: Entry, known: Iterable[str]) -> None:
        from hts.language.vocabulary.suggest import nearest

        names = sorted(known)
        guess = nearest(reference.name, names)
        if guess:
            help = f"did you mean {guess}?"
        elif names:
            help = f"declared are: {', '.join(names[:12])}"
        else:
            help = f"declare it: {reference.what} {reference.name} {{ … }}"
        owner.sound = False
        self.report.add(
            Finding(
                mistakes.UNKNOWN_NAME,
                f"no {reference.what} is named {reference.name!r}",
                Label(owner.source.span(reference.start, reference.end)),
                address=owner.address,
                help=help,
            )
        )
