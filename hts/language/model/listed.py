"""Joints from weld lists: the row of a name, and all of a list where it says `each of`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from hts.base.findings import Finding, Kind, Label
from hts.base.text import Span
from hts.language.model.joint import Joint
from hts.language.model.names import Names
from hts.language.rows.row_source import RowSource
from hts.language.vocabulary import joint as words
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.table_mistakes import UNTREATED
from hts.language.vocabulary.types import EachOf, Reference
from hts.language.vocabulary.weld_list import WeldList

#: As many welds are named in one finding.
NAMED = 5

Named = tuple[str, words.Joint, Span]


class Listed:
    """What the weld lists of a specification hold; `names` knows the lists once declared."""

    def __init__(self, names: Names) -> None:
        self.names = names
        #: By list and name; the joints of one file by name, in their order.
        self._rows: dict[int, dict[str, words.Joint]] = {}
        self._files: dict[int, list[Named]] = {}
        self._own: dict[tuple[str, int], words.Joint | None] = {}

    def named(self, file: File) -> list[Named]:
        """The joints of a file: those written out, then those of its lists. One that is written
        over its row stands in the place of the row."""
        known = self._files.get(id(file))
        if known is None:
            known = self._files[id(file)] = self._named(file)
        return known

    def _named(self, file: File) -> list[Named]:
        rows = {id(row) for listed in file.weld_lists for row in listed.joints}
        written: list[Named] = []
        over: dict[tuple[str, str], Named] = {}
        here = {listed.name for listed in file.weld_lists}
        for entry in file.joints:
            if id(entry) in rows:
                continue
            for name in entry.names:
                item = (name, entry, entry.place("names"))
                key = self._over(name, entry, here)
                if key is None or key in over:
                    written.append(item)
                else:
                    over[key] = item
        for listed in file.weld_lists:
            for name, row in self._by_name(listed).items():
                item = (name, row, row.place("names"))
                written.append(over.pop((listed.name, name), over.pop(("", name), item)))
        # Those of no row are there, so that they are told.
        return [*written, *over.values()]

    def _over(self, name: str, entry: words.Joint, here: set[str]) -> tuple[str, str] | None:
        """The list of this file and the row that a joint is written over. A list nobody knows may
        be any of them: that it is not known is told, and not that there are two of the name."""
        if entry.row is None:
            return None
        known = self.names.find("weld list", entry.row.name) is not None
        if entry.row.name in here:
            return entry.row.name, name
        return None if known else ("", name)

    def row(self, name: str, entry: words.Joint) -> words.Joint | None:
        """The row of a joint from a list: its own entry, or that over which it is written."""
        key = name, id(entry)
        if key not in self._own:
            self._own[key] = self._row(name, entry)
        return self._own[key]

    def _row(self, name: str, entry: words.Joint) -> words.Joint | None:
        reference = entry.row
        if reference is None:
            return entry if isinstance(entry.source, RowSource) else None
        if entry.like is not None:
            self._tell(
                mistakes.UNEXPECTED_VALUE,
                entry,
                name,
                entry.place("like"),
                f"joint {name} is both in a weld list and like another joint",
                "the row says what it is like; keep one of them",
            )
            return None
        listed: WeldList | None = self.names.resolve(reference, entry)
        if listed is None:
            return None
        found = self._by_name(listed).get(name)
        if found is None:
            entry.sound = False
            # A list that could not be read whole may hold any name that is not found.
            if listed.sound:
                from hts.language.vocabulary.suggest import nearest

                guess = nearest(name, self._by_name(listed))
                self._tell(
                    mistakes.UNKNOWN_NAME,
                    entry,
                    name,
                    entry.place("names"),
                    f"no row of {listed.name} that counts is weld {name}",
                    f"did you mean {guess}?" if guess else "correct the name, or remove the joint",
                )
        return found

    def each(self, entry: Any) -> Iterator[Reference]:
        """The joints an entry names, those of lists one by one."""
        for reference in entry.joints:
            if not isinstance(reference, EachOf):
                yield reference
                continue
            listed: WeldList | None = self.names.resolve(reference, entry)
            if getattr(entry, "together", False):
                self._tell(
                    mistakes.UNEXPECTED_VALUE,
                    entry,
                    entry.address,
                    entry.place("together"),
                    "the joints of a weld list are not heated together",
                    "name the joints that are heated at the same time",
                )
                entry.together = False
            if listed is None:
                continue
            if not listed.sound:
                entry.sound = entry.sound and bool(listed.joints)
            names = [name for name, row in self._by_name(listed).items() if _is(row, reference)]
            if not names and listed.joints and reference.like is not None:
                typical = self.names.resolve(reference.like, entry)
                if typical is not None and listed.sound:
                    self._tell(
                        mistakes.UNKNOWN_NAME,
                        entry,
                        entry.address,
                        entry.source.span(reference.like.start, reference.like.end),
                        f"no weld of {listed.name} is like {reference.like.name}",
                        f"its welds are like {_likes(listed)}",
                    )
            for name in names:
                yield Reference("joint", name, reference.start, reference.end)

    def untreated(self, file: File, joints: Mapping[str, Joint]) -> None:
        """Reports welds of a list that nothing treats, where others of it are treated."""
        if not all(entry.sound for entry in (*file.bakes, *file.cycles)):
            # It may have been meant for them.
            return
        for listed in file.weld_lists:
            there = [joints[name] for name in self._by_name(listed) if name in joints]
            left = [joint for joint in there if not (joint.cycles or joint.bakes)]
            if len(left) == len(there):
                continue
            # What it is like may be misspelled, which has been told.
            left = [joint for joint in left if joint.entry.sound]
            if not left:
                continue
            first = ", ".join(joint.name for joint in left[:NAMED])
            more = f" and {len(left) - NAMED} more" if len(left) > NAMED else ""
            rows = [joint.row for joint in left[:NAMED] if joint.row is not None]
            self.names.report.add(
                Finding(
                    UNTREATED,
                    f"of {listed.name} {first}{more} {'is' if len(left) == 1 else 'are'} in no "
                    "cycle and no bake, the others are",
                    Label(listed.place("name")),
                    address=listed.name,
                    others=[Label(row.place("names")) for row in rows],
                )
            )

    def _by_name(self, listed: WeldList) -> dict[str, words.Joint]:
        known = self._rows.get(id(listed))
        if known is None:
            known = self._rows[id(listed)] = {row.names[0]: row for row in listed.joints}
        return known

    def _tell(
        self, kind: Kind, entry: Any, address: str, at: Span, message: str, help: str
    ) -> None:
        entry.sound = False
        self.names.report.add(Finding(kind, message, Label(at), address=address, help=help))


def _is(row: words.Joint, reference: EachOf) -> bool:
    """Whether a row is among those a reference means."""
    return reference.like is None or (row.like is not None and row.like.name == reference.like.name)


def _likes(listed: WeldList) -> str:
    names = dict.fromkeys(row.like.name for row in listed.joints if row.like is not None)
    return ", ".join(list(names)[:12]) or "no other joint"
