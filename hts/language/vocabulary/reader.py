"""Reads a tree into entries as the vocabulary declares them.

Goes on after every misread value with the next clause, and after every misread entry with the next
one. What follows from an error already told is not told again: an entry that could not be read
whole is kept, marked not sound, and counts as present.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from hts.base.findings import Finding, Kind, Label, Report
from hts.base.text import Source
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.children import child_of
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.declare import BLOCK, FLAG, Entry, Field
from hts.language.vocabulary.kept import keep_phrase, keep_value
from hts.language.vocabulary.paths import title
from hts.language.vocabulary.required import (
    IN_BLOCK,
    IN_PHRASE,
    absence,
    called,
    missing,
    name_of,
    of_the_whole,
)
from hts.syntax.syntax_errors import enough_told
from hts.syntax.tree import Entry as Node

_NOTHING: Mapping[Any, Any] = {}


class Reader:
    """Reads the nodes of one source; findings go to the report.

    ``configured`` are values, by entry and field, that count where the text does not say the field.
    """

    def __init__(
        self,
        source: Source,
        report: Report,
        root: type[Entry],
        configured: Mapping[type[Entry], Mapping[str, Any]] = _NOTHING,
    ) -> None:
        self.source = source
        self.report = report
        self.root = root
        self.configured = configured
        #: Words of entries that stand in a wrong block, and what is missing in the right ones.
        self.misplaced: list[str] = []
        self.absent: list[tuple[str, Finding]] = []

    def read(self, nodes: list[Node]) -> Entry:
        """The whole file as the root entry, whose block is the file itself."""
        whole = _new(self.root, self.source, 0, 0)
        self._block(whole, nodes, "", complete=True)
        for words, finding in self.absent:
            # It is there, in a wrong block, which has been told.
            if words in self.misplaced:
                self.misplaced.remove(words)
            else:
                self.report.add(finding)
        return whole

    def one(self, cls: type[Entry], node: Node, skip: int) -> Entry:
        """A single entry that stands nowhere else; ``skip`` items are the words it begins with."""
        made = self._entry(cls, node, "", skip, complete=True)
        for _, finding in self.absent:
            self.report.add(finding)
        return made

    def _entry(
        self, cls: type[Entry], node: Node, address: str, skip: int, complete: bool
    ) -> Entry:
        """One entry of a known class; ``skip`` items are the words it begins with.

        Unless ``complete`` it may leave out what it must otherwise say: it is laid over another.
        """
        misplaced = node.block is not None and not cls.takes_block()
        # What the phrase lacks most likely stands in the block.
        made = self._phrase_of(cls, node, skip, complete and not misplaced)
        complete = complete and not (made.says("like") or made.says("row"))
        made.address = _address(address, made)
        if misplaced:
            assert node.block is not None
            self._say(
                made,
                mistakes.UNEXPECTED_BLOCK,
                f"{called(made)} takes no block",
                node.block.open.start,
                node.block.close.end,
                "remove the block, or move its entries",
            )
        elif node.block is not None:
            self._block(made, node.block.entries, made.address, complete)
        elif cls.needs_block and complete and made.sound:
            self._say(
                made,
                mistakes.MISSING_BLOCK,
                f"{called(made)} needs a block",
                made.start,
                node.end,
                "add { … } and describe it there",
            )
        return made

    # The phrase of one entry -------------------------------------------------------------------

    def _phrase_of(self, cls: type[Entry], node: Node, skip: int, complete: bool) -> Entry:
        """The entry with what its phrase says; the same line is read once."""
        key = (cls, skip, complete)
        kept = node.line.readings.get(key) if node.line is not None else None
        if kept is not None:
            return kept.made(self.source, node.begins)  # type: ignore[no-any-return]
        items = node.items
        first, last = items[0], items[max(skip, 1) - 1]
        made = _new(cls, self.source, first.start, last.end)
        made.sound = not node.broken
        cursor = Cursor(self.source, items, cls.labels, cls.values)
        cursor.at = skip
        told = len(self.report.findings)
        self._phrase(made, cursor, node.broken, complete)
        if made.sound and len(self.report.findings) == told:
            keep_phrase(node, key, made)
        return made

    def _phrase(self, made: Entry, cursor: Cursor, broken: bool, complete: bool) -> None:
        cls = type(made)
        waiting = list(cls.values)
        while cursor.item is not None:
            if cursor.kind == "COMMA":
                cursor.at += 1
                continue
            label = field = self._label(cls, cursor)
            begun = cursor.here()[0]
            try:
                if label is not None:
                    self._labelled(made, label, cursor)
                    continue
                field = next_value(waiting, cursor)
                if field is not None:
                    waiting.remove(field)
                    self._value(made, field, cursor)
                    continue
                if not broken:
                    from hts.language.vocabulary.unknown import unexpected

                    self._tell(made, unexpected(made, cursor, waiting))
                return
            except Misread as error:
                if not broken:
                    self._misread(made, error, field, begun)
                made.sound = False
                if label is None:
                    cursor.at += 1
                self._resume(cls, cursor)
        if not broken and made.sound:
            self._require_phrase(made, waiting, cursor, complete)

    def _label(self, cls: type[Entry], cursor: Cursor) -> Field | None:
        for field in cls.labels.get(cursor.word(), ()):
            if cursor.matches(field.words):
                return field
        return None

    def _labelled(self, made: Entry, field: Field, cursor: Cursor) -> None:
        first = cursor.items[cursor.at]
        last = cursor.items[cursor.at + len(field.words) - 1]
        if field.name in made.places and not field.many:
            cursor.at += len(field.words)
            made.places.setdefault(field.name, (first.start, last.end))
            raise Misread(
                mistakes.REPEATED_ENTRY,
                f"`{' '.join(field.words)}` is given twice in this entry",
                first.start,
                last.end,
                "keep one of them",
            )
        cursor.at += len(field.words)
        made.places[field.name] = (first.start, last.end)
        if field.form == FLAG:
            setattr(made, field.name, True)
            return
        self._value(made, field, cursor)

    def _value(self, made: Entry, field: Field, cursor: Cursor) -> None:
        read = field.type.read  # type: ignore[union-attr]
        made.places.setdefault(field.name, cursor.here())
        start = cursor.here()[0]
        value = read(cursor)
        if field.many:
            values = [value]
            while cursor.kind == "COMMA" and self._continues(made, field, cursor):
                cursor.at += 1
                values.append(read(cursor))
            value = [*getattr(made, field.name), *values]
        setattr(made, field.name, value)
        made.places[field.name] = (start, cursor.items[cursor.at - 1].end)

    def _continues(self, made: Entry, field: Field, cursor: Cursor) -> bool:
        """Whether the list goes on after the comma at the cursor."""
        cursor.at += 1
        try:
            return self._label(type(made), cursor) is None and (
                cursor.item is None or field.type.begins(cursor)  # type: ignore[union-attr]
            )
        finally:
            cursor.at -= 1

    def _resume(self, cls: type[Entry], cursor: Cursor) -> None:
        """Moves on to the next clause; what stands before it belongs to what was misread."""
        while cursor.item is not None and self._label(cls, cursor) is None:
            cursor.at += 1

    def _require_phrase(
        self, made: Entry, waiting: list[Field], cursor: Cursor, complete: bool
    ) -> None:
        for field in waiting:
            if field.required:
                self._misread(made, field.type.wrong(cursor))  # type: ignore[union-attr]
                return
        if complete:
            end = cursor.items[-1].end
            for field in list(missing(made, IN_PHRASE)):
                self._tell(made, absence(made, field, made.start, end))
            for finding in of_the_whole(made, made.start, end):
                self._tell(made, finding)

    # The block ---------------------------------------------------------------------------------

    def _block(self, parent: Entry, nodes: list[Node], address: str, complete: bool) -> None:
        cls = type(parent)
        half_read = False
        for node in nodes:
            if node.line is None and not node.items:
                half_read = True
                parent.sound = False
                continue
            field, skip = child_of(cls, node)
            if field is None:
                told = enough_told(self.report, self.source, node.start, node.end)
                if not node.broken and not told:
                    from hts.language.vocabulary.unknown import unknown

                    finding, words = unknown(self.root, parent, node)
                    self._tell(parent, finding)
                    if words:
                        self.misplaced.append(words)
                parent.sound = False
                half_read = True
                continue
            if field.name in parent.places and not field.many:
                self._repeated(parent, field, node, skip)
                continue
            if field.form == BLOCK:
                inner: type[Entry] = field.entry  # type: ignore[assignment]
                # Only single blocks are laid over each other; all else replaces what was there.
                whole = complete or field.many or not inner.takes_block()
                child: Any = self._entry(inner, node, address, skip, whole)
                sound, start, end = child.sound, child.start, child.end
            else:
                child, sound, start, end = self._simple(parent, field, node, skip)
            parent.sound = parent.sound and sound
            self._keep(parent, field, child, start, end)
        for name, value in self.configured.get(cls, _NOTHING).items():
            if not parent.says(name):
                setattr(parent, name, value)
                parent.places[name] = (parent.start, parent.end)
                parent.configured = (*parent.configured, name)
        if complete and not half_read:
            for field in list(missing(parent, IN_BLOCK)):
                finding = absence(parent, field, parent.start, parent.end)
                parent.sound = False
                self.absent.append((" ".join(field.words), finding))

    def _simple(
        self, parent: Entry, field: Field, node: Node, skip: int
    ) -> tuple[Any, bool, int, int]:
        """An entry of one value, which needs no class of its own; the same line is read once."""
        kept = node.line.readings.get(field) if node.line is not None else None
        if kept is not None and node.block is None:
            return kept.made(node.begins)  # type: ignore[no-any-return]
        told = len(self.report.findings)
        cursor = Cursor(self.source, node.items, {})
        cursor.at = skip
        start, end = node.items[0].start, node.items[-1].end
        sound = not node.broken
        read: Any = None
        begun = cursor.here()[0]
        try:
            read = field.type.read(cursor)  # type: ignore[union-attr]
            if field.many:
                read = [read]
                while cursor.kind == "COMMA":
                    cursor.at += 1
                    begun = cursor.here()[0]
                    read.append(field.type.read(cursor))  # type: ignore[union-attr]
            cursor.skip_commas()
            if cursor.item is not None and not node.broken:
                raise Misread(
                    mistakes.UNEXPECTED_VALUE,
                    f"{cursor.text(cursor.item)!r} is not expected here",
                    cursor.item.start,
                    end,
                    "the entry is complete before it",
                )
        except Misread as error:
            if not node.broken:
                self._misread(parent, error, field, begun)
            sound = False
        if node.block is not None:
            self._say(
                parent,
                mistakes.UNEXPECTED_BLOCK,
                f"`{' '.join(field.words)}` takes no block",
                node.block.open.start,
                node.block.close.end,
                "remove the block",
            )
            sound = False
        if sound and len(self.report.findings) == told:
            keep_value(node, field, read, start, end)
        return read, sound, start, end

    def _repeated(self, parent: Entry, field: Field, node: Node, skip: int) -> None:
        first = self.source.span(*parent.places[field.name])
        self._say(
            parent,
            mistakes.REPEATED_ENTRY,
            f"`{' '.join(field.words)}` is given twice in this block",
            node.items[0].start,
            node.items[skip - 1].end,
            "keep one of them",
            [Label(first, "first given here")],
        )

    def _keep(self, parent: Entry, field: Field, child: Any, start: int, end: int) -> None:
        if field.many:
            children = (child or ()) if field.form != BLOCK else (child,)
            parent.__dict__.setdefault(field.name, []).extend(children)
            parent.places.setdefault(field.name, (start, end))
            return
        setattr(parent, field.name, child)
        parent.places[field.name] = (start, end)

    # Findings ----------------------------------------------------------------------------------

    def _misread(
        self, made: Entry, error: Misread, field: Field | None = None, begun: int = 0
    ) -> None:
        """``field`` is what was being read, and ``begun`` where its value starts."""
        from hts.language.vocabulary.unknown import better_help

        help = better_help(made, error, field, begun)
        self._say(made, error.kind, error.message, error.start, error.end, help)

    def _say(
        self,
        made: Entry,
        kind: Kind,
        message: str,
        start: int,
        end: int,
        help: str = "",
        others: Iterable[Label] = (),
    ) -> None:
        at = Label(self.source.span(start, end))
        self._tell(made, Finding(kind, message, at, address=made.address, others=others, help=help))

    def _tell(self, made: Entry, finding: Finding) -> None:
        made.sound = False
        self.report.add(finding)


def _new(cls: type[Entry], source: Source, start: int, end: int) -> Entry:
    made = cls()
    made.source = source
    made.start = start
    made.end = end
    made.places = {}
    return made


def next_value(waiting: list[Field], cursor: Cursor) -> Field | None:
    """The field that takes the next item: the first required one, or an optional one that fits."""
    for field in waiting:
        if field.required or field.type.begins(cursor):  # type: ignore[union-attr]
            return field
    return None


def _address(address: str, made: Entry) -> str:
    name = name_of(made)
    own = name if name is not None else title(type(made)).replace(" ", "-")
    return f"{address}/{own}" if address else own
