"""Names across a text and the files it uses: where each is declared, and where it stands.

A zone and a thermocouple belong to their joint, and to every joint begun `like` it. Anything else
has one name in the whole of the files, those of the text itself before those of the files it uses.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from hts.base.text import Span
from hts.editor.outline import Line, chain
from hts.editor.phrase import NAME, REFERENCE
from hts.editor.place import Place, Text

#: What belongs to its joint.
OF_JOINT = ("zone", "thermocouple")
#: What may be named from elsewhere.
KINDS = (
    "joint",
    "procedure",
    "material",
    "filler",
    "controller",
    "recorder",
    "power source",
    "weld list",
    *OF_JOINT,
)


class Declared(NamedTuple):
    """A declaration: ``joints`` are the names of the joint it belongs to, none for what stands by
    itself."""

    what: str
    name: str
    span: Span
    text: Text
    line: Line
    joints: tuple[str, ...] = ()

    @property
    def about(self) -> str:
        """The line that declares it, without its block."""
        return " ".join(self.text.source.text[self.line.start : self.line.end].split())


class Used(NamedTuple):
    """A place where a name is used."""

    what: str
    name: str
    span: Span
    text: Text
    line: Line


class Index:
    """The names of one text."""

    __slots__ = ("declared", "text", "used")

    def __init__(self, text: Text) -> None:
        self.text = text
        self.declared: list[Declared] = []
        self.used: list[Used] = []
        for line in text.outline.lines:
            if not text.phrase(line).named:
                continue
            for place in text.places_of(line):
                if place.role == NAME:
                    self._declare(place)
                elif place.role == REFERENCE:
                    used = Used(place.names, place.word, place.span, text, line)
                    self.used.append(used)

    def _declare(self, place: Place) -> None:
        what = place.names
        if what in KINDS:
            joints: tuple[str, ...] = ()
            if what in OF_JOINT:
                home = joint_of(place.line)
                joints = names_of(self.text, home) if home is not None else ()
            at = place.span
            self.declared.append(Declared(what, place.word, at, self.text, place.line, joints))


def joint_of(line: Line) -> Line | None:
    """The joint an entry lies in or is."""
    for each in chain(line):
        if each.parent is None:
            return each
    return None


def names_of(text: Text, line: Line) -> tuple[str, ...]:
    """What an entry of the whole file is called: several names where several joints are alike."""
    return tuple(place.word for place in text.places_of(line) if place.role == NAME)


class Names:
    """The names a text can use: its own and those of the files it uses."""

    def __init__(self, index: Index, used: Iterable[Index] = ()) -> None:
        self.own = index
        self.all = [index, *used]

    def of_kind(self, what: str, line: Line | None = None) -> list[Declared]:
        """What of a kind can be named, each name once; for a zone or a thermocouple from a
        ``line``."""
        found: dict[str, Declared] = {}
        if what in OF_JOINT:
            for declared in self._of_joints(what, self._joints_at(line), set()):
                found.setdefault(declared.name, declared)
        else:
            for index in self.all:
                for declared in index.declared:
                    if declared.what == what:
                        found.setdefault(declared.name, declared)
        return list(found.values())

    def find(self, what: str, name: str, line: Line | None = None) -> Declared | None:
        """The declaration a name leads to."""
        return next((d for d in self.of_kind(what, line) if d.name == name), None)

    def _joints_at(self, line: Line | None) -> Sequence[str]:
        """The joints whose zones and thermocouples can be named in an entry: the one it lies in,
        for no other entry names any."""
        home = joint_of(line) if line is not None else None
        return names_of(self.own.text, home) if home is not None else ()

    def _of_joints(self, what: str, joints: Iterable[str], seen: set[str]) -> Iterator[Declared]:
        for joint in joints:
            if joint in seen:
                continue
            seen.add(joint)
            for index in self.all:
                for declared in index.declared:
                    if declared.what == what and joint in declared.joints:
                        yield declared
            whole = self.find("joint", joint)
            if whole is not None:
                like = [
                    place.word
                    for place in whole.text.places_of(whole.line)
                    if place.role == REFERENCE and place.names == "joint"
                ]
                yield from self._of_joints(what, like, seen)

    def declared_at(self, place: Place) -> Declared | None:
        """What the name at a place is declared as: itself, where it is the declaration."""
        if place.role == NAME and place.names in KINDS:
            return next((d for d in self.own.declared if d.span == place.span), None)
        if place.role != REFERENCE:
            return None
        what = place.names
        if what == "book or procedure":
            what = "procedure"
        if what == "address":
            return self._addressed(place)
        return self.find(what, place.word, place.line)

    def _addressed(self, place: Place) -> Declared | None:
        """What a word of an address names: `T5` in `W12/thermocouples/T5` and in `W12.T5`."""
        address = _whole_address(place)
        joint = address.replace(".", "/").split("/")[0]
        word = place.word.split(".")[-1]
        for what in OF_JOINT:
            for declared in self._of_joints(what, [joint], set()):
                if declared.name == word and word != joint:
                    return declared
        return self.find("joint", place.word.split(".")[0])

    def uses(self, target: Declared, *, itself: bool = True) -> list[Span]:
        """Every place in these files where a name stands for the one thing, with its declaration
        unless told otherwise."""
        found: list[Span] = [target.span] if itself else []
        for index in self.all:
            names = Names(index, [other for other in self.all if other is not index])
            for used in index.used:
                found += names.standing_for(used, target)
            for declared in index.declared:
                overridden = (
                    target.what in OF_JOINT
                    and declared.what == target.what
                    and declared.name == target.name
                    and declared.span != target.span
                    and names._overrides(declared, target)
                )
                if overridden:
                    found.append(declared.span)
        return sorted(set(found), key=lambda span: (span.source.name, span.start))

    def standing_for(self, used: Used, target: Declared) -> list[Span]:
        """The part of a used name that stands for a thing, none where it stands for another."""
        if used.what == "address":
            return self._in_address(used, target)
        what = "procedure" if used.what == "book or procedure" else used.what
        if what != target.what or used.name != target.name:
            return []
        found = self.find(what, used.name, used.line)
        same = found is not None and (found.span == target.span or self._overrides(found, target))
        return [used.span] if same else []

    def _overrides(self, declared: Declared, target: Declared) -> bool:
        """Whether a declaration stands in for another of its name, from the joint its own joint is
        `like`."""
        if declared.what not in OF_JOINT or declared.what != target.what:
            return False
        below = self._of_joints(declared.what, declared.joints, set())
        return any(each.span == target.span for each in below)

    def _in_address(self, used: Used, target: Declared) -> list[Span]:
        source = used.text.source
        place = used.text.at(used.span.start)
        if place is None:
            return []
        parts = used.span.text.split(".")
        joint = _whole_address(place).replace(".", "/").split("/")[0]
        start = used.span.start
        found: list[Span] = []
        for part in parts:
            span = source.span(start, start + len(part))
            start += len(part) + 1
            if part != target.name:
                continue
            if target.what == "joint":
                home = self.find("joint", part)
                first = span.start == place.line.start + _address_start(place)
                if first and home is not None and home.span == target.span:
                    found.append(span)
            elif target.what in OF_JOINT and part != joint:
                below = self._of_joints(target.what, [joint], set())
                if any(each.span == target.span for each in below):
                    found.append(span)
        return found


def _address_start(place: Place) -> int:
    """Where the address begins that a word is part of, from the beginning of its entry."""
    part = place.part
    for value in place.phrase.values:
        if part is not None and value.start <= part.start < value.end:
            return value.start
    return part.start if part is not None else 0


def _whole_address(place: Place) -> str:
    span = place.value_span
    return "".join(span.text.split()) if span is not None else place.word


def unresolved(names: Names) -> list[Span]:
    """Names that lead nowhere, as far as the files that are used can be read."""
    own = names.own
    checked = set(KINDS)
    if any(
        line.block and each.text.path(line) == "weld list"
        for each in names.all
        for line in each.text.outline.top
    ):
        # Welds named in a table are not looked up here.
        checked.discard("joint")
    return [
        used.span
        for used in own.used
        if used.what in checked and names.find(used.what, used.name, used.line) is None
    ]
