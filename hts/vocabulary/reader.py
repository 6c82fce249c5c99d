"""Reads a tree into entries as the vocabulary declares them.

Goes on after every misread value with the next clause, and after every misread entry with the next
one. What follows from an error already told is not told again: an entry that could not be read
whole is kept, marked not sound, and counts as present.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from hts.findings import Finding, Kind, Label, Report
from hts.syntax.tree import Entry as Node
from hts.syntax.tree import Item
from hts.text import Source
from hts.vocabulary import kinds
from hts.vocabulary.cursor import Cursor, Misread
from hts.vocabulary.declare import BLOCK, FLAG, Entry, Field

_HIDDEN = frozenset(
    [chr(c) for c in range(32)] + [chr(c) for c in range(127, 160)]
    + list("\u061c\u200b\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2060\u2066\u2067\u2068\u2069\ufeff")
) - {"\t"}


class Reader:
    """Reads the nodes of one source; findings go to the report."""

    def __init__(self, source: Source, report: Report, root: type[Entry]) -> None:
        self.source = source
        self.report = report
        self.root = root

    def read(self, nodes: list[Node]) -> Entry:
        """The whole file as the root entry, whose block is the file itself."""
        whole = _new(self.root, self.source, 0, 0)
        self._children(whole, nodes, "")
        self._require_children(whole, 0, 0)
        return whole

    def entry(self, cls: type[Entry], node: Node, address: str, skip: int) -> Entry:
        """One entry of a known class; ``skip`` items are the words it begins with."""
        items = node.items
        first, last = items[0], items[max(skip, 1) - 1]
        made = _new(cls, self.source, first.start, last.end)
        made.sound = not node.broken
        cursor = Cursor(self.source, items, cls.labels)
        cursor.at = skip
        self._phrase(made, cursor, node.broken)
        made.address = _address(address, made)
        if node.block is not None and not cls.takes_block():
            self._say(made, kinds.UNEXPECTED_BLOCK,
                      f"{_words(cls, made)} takes no block", node.block.open.start,
                      node.block.close.end, "remove the block, or move its entries")
        elif node.block is not None:
            self._children(made, node.block.entries, made.address)
            self._require_children(made, made.start, made.end)
        elif cls.needs_block and not node.broken:
            self._say(made, kinds.MISSING_BLOCK, f"{_words(cls, made)} needs a block",
                      made.start, node.end, "add { … } and describe it there")
        return made

    # The phrase of one entry -------------------------------------------------------------------

    def _phrase(self, made: Entry, cursor: Cursor, broken: bool) -> None:
        cls = type(made)
        waiting = list(cls.values)
        items = cursor.items
        count = len(items)
        while cursor.at < count:
            item = items[cursor.at]
            kind = item.kind
            if kind == "COMMA":
                cursor.at += 1
                continue
            label = self._label(cls, cursor) if kind == "WORD" else None
            try:
                if label is not None:
                    self._labelled(made, label, cursor)
                    continue
                field = _next_value(waiting, cursor)
                if field is not None:
                    waiting.remove(field)
                    self._value(made, field, cursor)
                    continue
                if not broken:
                    self._unexpected(made, cursor)
                return
            except Misread as error:
                if not broken:
                    self._misread(made, error)
                made.sound = False
                if label is None and waiting and waiting[0].required and not made.says(waiting[0].name):
                    field = waiting.pop(0)
                    made.places[field.name] = (error.start, error.end)
                self._resume(cls, cursor)
        if not broken and made.sound:
            self._require_phrase(made, waiting, cursor)

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
                kinds.REPEATED_ENTRY, f"`{' '.join(field.words)}` stands twice in this entry",
                first.start, last.end, "keep one of them",
            )
        cursor.at += len(field.words)
        made.places[field.name] = (first.start, last.end)
        if field.form == FLAG:
            setattr(made, field.name, True)
            return
        self._value(made, field, cursor)

    def _value(self, made: Entry, field: Field, cursor: Cursor) -> None:
        read = field.type.read  # type: ignore[union-attr]
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
        """Moves on to the next clause."""
        cursor.at += 1
        while cursor.at < len(cursor.items) and not (cursor.word() and self._label(cls, cursor)):
            cursor.at += 1

    def _unexpected(self, made: Entry, cursor: Cursor) -> None:
        from hts.vocabulary.suggest import nearest

        cls = type(made)
        item = cursor.items[cursor.at]
        found = cursor.text(item)
        labels = [" ".join(f.words) for fields in cls.labels.values() for f in fields]
        guess = None
        if item.kind == "WORD":
            two = f"{found} {cursor.word(1)}".strip()
            guess = nearest(two, labels) or nearest(found, labels)
        if guess:
            help = f"did you mean `{guess}`?"
        elif labels:
            help = f"after what is there the entry can say: {', '.join(f'`{w}`' for w in labels)}"
        else:
            help = "the entry ends before it"
        self._say(made, kinds.UNEXPECTED_VALUE, f"{found!r} is not expected here",
                  item.start, cursor.items[-1].end, help)

    def _require_phrase(self, made: Entry, waiting: Iterable[Field], cursor: Cursor) -> None:
        for field in waiting:
            if field.required:
                error = field.type.wrong(cursor)  # type: ignore[union-attr]
                self._misread(made, error)
                return
        for field in type(made).fields.values():
            if field.form == "clause" and field.required and field.name not in made.places:
                words = " ".join(field.words)
                self._say(made, kinds.MISSING_VALUE,
                          f"{_words(type(made), made)} does not say `{words}` ({_lower(field.doc)})",
                          made.start, cursor.items[-1].end,
                          f"add it, for example: {words} {field.type.example}")  # type: ignore[union-attr]

    # The block ---------------------------------------------------------------------------------

    def _children(self, parent: Entry, nodes: list[Node], address: str) -> None:
        cls = type(parent)
        for node in nodes:
            if not node.items:
                continue
            field, skip = _find_child(cls, node)
            if field is None:
                if not node.broken:
                    self._unknown(parent, node)
                parent.sound = False
                continue
            if field.form == BLOCK:
                child: Any = self.entry(field.entry, node, address, skip)  # type: ignore[arg-type]
                sound, start, end = child.sound, child.start, child.end
            else:
                child, sound, start, end = self._simple(parent, field, node, skip)
            parent.sound = parent.sound and sound
            self._keep(parent, field, child, start, end)

    def _simple(
        self, parent: Entry, field: Field, node: Node, skip: int
    ) -> tuple[Any, bool, int, int]:
        """An entry of one value, which needs no class of its own."""
        cursor = Cursor(self.source, node.items, {})
        cursor.at = skip
        start, end = node.items[0].start, node.items[-1].end
        sound = not node.broken
        read: Any = None
        try:
            read = field.type.read(cursor)  # type: ignore[union-attr]
            if field.many:
                read = [read]
                while cursor.kind == "COMMA":
                    cursor.at += 1
                    read.append(field.type.read(cursor))  # type: ignore[union-attr]
            cursor.skip_commas()
            if cursor.item is not None and not node.broken:
                raise Misread(
                    kinds.UNEXPECTED_VALUE,
                    f"{cursor.text(cursor.item)!r} is not expected here",
                    cursor.item.start, end, "the entry ends before it",
                )
        except Misread as error:
            if not node.broken:
                self._misread(parent, error)
            sound = False
        if node.block is not None:
            self._say(parent, kinds.UNEXPECTED_BLOCK, f"`{' '.join(field.words)}` takes no block",
                      node.block.open.start, node.block.close.end, "remove the block")
            sound = False
        return read, sound, start, end

    def _keep(self, parent: Entry, field: Field, child: Any, start: int, end: int) -> None:
        if field.many:
            children = child if field.form != BLOCK else [child]
            setattr(parent, field.name, [*getattr(parent, field.name), *(children or ())])
            parent.places.setdefault(field.name, (start, end))
            return
        if field.name in parent.places:
            first = self.source.span(*parent.places[field.name])
            self._say(parent, kinds.REPEATED_ENTRY,
                      f"`{' '.join(field.words)}` stands twice in this block", start, end,
                      "keep one of them", [Label(first, "first given here")])
            return
        setattr(parent, field.name, child)
        parent.places[field.name] = (start, end)

    def _require_children(self, made: Entry, start: int, end: int) -> None:
        cls = type(made)
        for field in cls.fields.values():
            if field.form in ("entry", "block") and field.required and field.name not in made.places:
                if not made.sound and not cls.words:
                    continue
                words = " ".join(field.words)
                if not made.sound and self._half_read(made):
                    continue
                self._say(made, kinds.MISSING_ENTRY,
                          f"{_words(cls, made)} has no `{words or _lower(field.doc)}`"
                          f" ({_lower(field.doc)})", start, end,
                          f"add, for example: {field.example}" if field.example else "")

    def _half_read(self, made: Entry) -> bool:
        """Whether a line of the block was not understood, which may be the one missing."""
        return getattr(made, "_unknown_lines", False)

    def _unknown(self, parent: Entry, node: Node) -> None:
        from hts.vocabulary.suggest import nearest

        cls = type(parent)
        parent._unknown_lines = True  # type: ignore[attr-defined]
        first = node.items[0]
        found = self.source.text[first.start : first.end]
        here = [" ".join(f.words) for fields in cls.children.values() for f in fields]
        written = _leading_words(node.items)
        owners = _owners(self.root, written)
        where = f"in the block of {_words(cls, parent)}" if cls.words else "at the top of a file"
        end = first.end
        if owners:
            words = owners[0][1]
            end = node.items[len(words.split()) - 1].end
            homes = " or ".join(dict.fromkeys(home for home, _ in owners))
            self._say(parent, kinds.MISPLACED_ENTRY, f"`{words}` has no place {where}",
                      first.start, end, f"it belongs to: {homes}")
            return
        guess = nearest(written, here) or nearest(found, here)
        if guess is None and len(written.split()) > 1:
            guess = nearest(" ".join(written.split()[:2]), here)
        shown = ", ".join(f"`{w}`" for w in sorted(here))
        help = f"did you mean `{guess}`?" if guess else f"known here: {shown}" if here else ""
        self._say(parent, kinds.UNKNOWN_ENTRY, f"{found!r} is not an entry {where}",
                  first.start, end, help)

    # Findings ----------------------------------------------------------------------------------

    def _misread(self, made: Entry, error: Misread) -> None:
        self._say(made, error.kind, error.message, error.start, error.end, error.help)

    def _say(
        self, made: Entry, kind: Kind, message: str, start: int, end: int, help: str = "",
        others: Iterable[Label] = (),
    ) -> None:
        made.sound = False
        self.report.add(
            Finding(kind, message, Label(self.source.span(start, end)), address=made.address,
                    others=others, help=help)
        )


def hidden_characters(source: Source, report: Report) -> None:
    """Reports texts whose look differs from what they hold."""
    text = source.text
    if text.isascii() and text.replace("\n", "").replace("\t", "").replace("\r", "").isprintable():
        return
    for at, character in enumerate(text):
        if character in _HIDDEN and character not in "\n\r" and not (at == 0 and character == "\ufeff"):
            report.add(
                Finding(kinds.HIDDEN_CHARACTER,
                        f"the character U+{ord(character):04X} is not seen when the text is read",
                        Label(source.span(at, at + 1)), help="remove it")
            )
            return


def _new(cls: type[Entry], source: Source, start: int, end: int) -> Entry:
    made = cls()
    made.source = source
    made.start = start
    made.end = end
    made.places = {}
    return made


def _next_value(waiting: list[Field], cursor: Cursor) -> Field | None:
    """The field that takes the next item: the first required one, or an optional one that fits."""
    for field in waiting:
        if field.required or field.type.begins(cursor):  # type: ignore[union-attr]
            return field
    return None


def _find_child(cls: type[Entry], node: Node) -> tuple[Field | None, int]:
    """Field an inner entry belongs to, and how many words name it."""
    items = node.items
    text = getattr(items[0], "text", "")
    for field in cls.children.get(text, ()):
        words = field.words
        if len(words) <= len(items) and all(
            getattr(items[i], "text", None) == words[i] for i in range(1, len(words))
        ):
            return field, len(words)
    if cls.named is not None and items[0].kind in ("WORD", "NUMBER"):
        return cls.named, 0
    return None, 0


def _leading_words(items: list[Item]) -> str:
    words = []
    for item in items:
        if item.kind != "WORD":
            break
        words.append(item.text)  # type: ignore[union-attr]
    return " ".join(words[:4])


def _owners(root: type[Entry], written: str) -> list[tuple[str, str]]:
    """Where in the language an entry with these words has its place: (home, words)."""
    found: list[tuple[str, str]] = []
    seen: set[type[Entry]] = set()
    queue: list[type[Entry]] = [root]
    while queue:
        cls = queue.pop(0)
        if cls in seen:
            continue
        seen.add(cls)
        home = f"`{' '.join(cls.words)}`" if cls.words else "the top of a file"
        for fields in cls.children.values():
            for field in fields:
                words = " ".join(field.words)
                if written == words or written.startswith(words + " "):
                    found.append((home, words))
        queue.extend(f.entry for f in cls.fields.values() if f.entry is not None)
    longest = max((len(words) for _, words in found), default=0)
    return [(home, words) for home, words in found if len(words) == longest]


def _address(address: str, made: Entry) -> str:
    name = _name(made)
    own = name if name is not None else "-".join(type(made).words)
    return f"{address}/{own}" if address else own


def _words(cls: type[Entry], made: Entry) -> str:
    words = " ".join(cls.words)
    name = _name(made)
    if name is not None:
        return f"{words} {name}".strip()
    return f"`{words}`" if words else "the file"


def _name(made: Entry) -> str | None:
    """What the entry is called; of several names the first."""
    name = getattr(made, "name", None)
    if isinstance(name, str):
        return name
    names = getattr(made, "names", None)
    return names[0] if names else None


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:].rstrip(".")
