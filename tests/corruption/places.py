"""Where everything a text says stands: every value, clause, flag, entry and block, with its path.

The reader of the language does the reading; what it takes as the value of a field is noted on the
way. So a new entry of the vocabulary is among the places from the day it is declared.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from hts.base.findings import Report
from hts.base.text import Source
from hts.language.vocabulary.declare import FLAG, VALUE, Entry, Field
from hts.language.vocabulary.paths import title
from hts.language.vocabulary.reader import Reader
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.types import OrRule, Type
from hts.syntax import parse
from hts.syntax.tree import Entry as Node
from hts.syntax.tree import Item


class Value(NamedTuple):
    """One value: of a list each member is one. ``owner`` is the entry that says it."""

    path: str
    type: Type
    items: tuple[Item, ...]
    owner: Entry
    field: Field

    @property
    def start(self) -> int:
        return self.items[0].start

    @property
    def end(self) -> int:
        return self.items[-1].end


class Part(NamedTuple):
    """A piece of the text that can be left out: a clause, flag, entry, block or member."""

    path: str
    what: str
    start: int
    end: int


class Words(NamedTuple):
    """The fixed words a clause or entry begins with."""

    path: str
    start: int
    end: int


class Step(NamedTuple):
    """A step of a treatment; ``follows`` is the one before it in the same block."""

    path: str
    node: Node
    follows: Node | None


class Places:
    """All places of a text."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.values: list[Value] = []
        self.parts: list[Part] = []
        self.words: list[Words] = []
        self.steps: list[Step] = []

    def line(self, at: int) -> int:
        """Number, from 1, of the line a place is on."""
        return self.source.position(at)[0]


def places(source: Source) -> Places:
    """Every place of a text that can be read without a finding."""
    found = Places(source)
    report = Report()
    _Noting(source, report, found).read(parse(source, report).entries)
    return found


class _Noting(Reader):
    def __init__(self, source: Source, report: Report, found: Places) -> None:
        super().__init__(source, report, File)
        self._found = found
        self._path: list[str] = []

    def _at(self, field: Field) -> str:
        words = " ".join(field.words)
        return ".".join([*self._path, field.name.rstrip("_") if field.form == VALUE else words])

    def _entry(
        self, cls: type[Entry], node: Node, address: str, skip: int, complete: bool
    ) -> Entry:
        _forget(node)
        self._path.append(title(cls))
        path = ".".join(self._path)
        self._found.parts.append(Part(path, "entry", *self._lines(node)))
        if skip:
            words = Words(path, node.items[0].start, node.items[skip - 1].end)
            self._found.words.append(words)
        made = super()._entry(cls, node, address, skip, complete)
        self._path.pop()
        return made

    def _block(self, parent: Entry, nodes: list[Node], address: str, complete: bool) -> None:
        before: Node | None = None
        members = {cls for f in type(parent).fields.values() for cls in f.family}
        ordered = {cls.words for cls in members} if "segments" in type(parent).fields else set()
        for node in nodes:
            first = getattr(node.items[0], "text", "")
            if (first,) in ordered:
                path = ".".join([*self._path, first])
                self._found.steps.append(Step(path, node, before))
                before = node
        super()._block(parent, nodes, address, complete)

    def _labelled(self, made: Entry, field: Field, cursor: Any) -> None:
        first = cursor.at
        super()._labelled(made, field, cursor)
        items = cursor.items[first : cursor.at]
        path = self._at(field)
        count = len(field.words)
        self._found.words.append(Words(path, items[0].start, items[count - 1].end))
        what = "flag" if field.form == FLAG else "clause"
        start = cursor.items[first - 1].end if first else items[0].start
        self._found.parts.append(Part(path, what, start, items[-1].end))

    def _value(self, made: Entry, field: Field, cursor: Any) -> None:
        first = cursor.at
        super()._value(made, field, cursor)
        self._note(self._at(field), field, cursor.items[first : cursor.at], made)

    def _simple(self, parent: Entry, field: Field, node: Node, skip: int) -> Any:
        _forget(node)
        read = super()._simple(parent, field, node, skip)
        path = self._at(field)
        self._found.parts.append(Part(path, "entry", *self._lines(node)))
        self._found.words.append(Words(path, node.items[0].start, node.items[skip - 1].end))
        self._note(path, field, node.items[skip:], parent)
        return read

    def _note(self, path: str, field: Field, items: list[Item], owner: Entry) -> None:
        assert field.type is not None
        kind = field.type.stated if isinstance(field.type, OrRule) else field.type
        members = _members(items) if field.many else [items]
        before = 0
        for number, member in enumerate(members):
            self._found.values.append(Value(path, kind, tuple(member), owner, field))
            if len(members) > 1:
                # With the comma before it, or for the first the one after it.
                start = before if number else member[0].start
                end = member[-1].end if number else members[1][0].start
                self._found.parts.append(Part(path, "member", start, end))
            before = member[-1].end

    def _lines(self, node: Node) -> tuple[int, int]:
        """The whole lines of an entry, its block included."""
        text = self.source.text
        start = text.rfind("\n", 0, node.start) + 1
        end = text.find("\n", node.end)
        return start, len(text) if end < 0 else end + 1


def _forget(node: Node) -> None:
    """A line that was read before is read again: what is kept of it passes nothing noted here."""
    if node.line is not None:
        node.line.readings.clear()


def _members(items: list[Item]) -> list[list[Item]]:
    """The members of a list, parted at the commas outside brackets."""
    members: list[list[Item]] = [[]]
    depth = 0
    for item in items:
        depth += {"LPAR": 1, "RPAR": -1}.get(item.kind, 0)
        if item.kind == "COMMA" and not depth:
            members.append([])
        else:
            members[-1].append(item)
    return [member for member in members if member]
