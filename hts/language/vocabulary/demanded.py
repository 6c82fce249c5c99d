"""What a procedure can demand of a job: every entry a job has, found by its own words.

A demand names an entry as a job would write it, such as `thermocouples attached`, and says how it
is to be: `requires thermocouples attached capacitor discharge energy at most 100 J`. Entries and
their words are taken from the vocabulary; nothing is listed here a second time.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Any, NamedTuple

from hts.base.quantities import COUNT, LENGTH, MASS_FRACTION, Dimension
from hts.language.vocabulary.cycle import Bake, Cycle
from hts.language.vocabulary.declare import BLOCK, ENTRY, VALUE, WORKED_OUT, Entry, Field
from hts.language.vocabulary.equipment import Controller, PowerSource, Recorder
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.job import Job, Waive
from hts.language.vocabulary.joint import Joint
from hts.language.vocabulary.material import Filler, Material
from hts.language.vocabulary.paths import steps, title
from hts.language.vocabulary.preheat import Preheat
from hts.language.vocabulary.types import (
    Choice,
    Count,
    ElementShare,
    Number,
    Offset,
    OrRule,
    Type,
    Width,
)
from hts.language.vocabulary.work import After, Before, During, Work

#: The entries of a file that say what is to be done; a demand is put to one of them or what lies
#: in its block.
ROOTS: tuple[type[Entry], ...] = (
    Job, Waive, Joint, Material, Filler, Preheat, Bake, Cycle, Controller, Recorder, PowerSource,
    Before, During, After,
)  # fmt: skip


class Test(NamedTuple):
    """What one field has to say; with nothing else given, it has to say something.

    ``among`` are values of which it is one, or with ``every`` that are all asked for, each of one
    entry or another; ``least`` and ``most`` bound it, as a quantity, a whole number or a formula;
    ``words`` are those of the demand.
    """

    field: Field
    words: str = ""
    among: tuple[Any, ...] = ()
    least: Any = None
    most: Any = None
    element: str = ""
    every: bool = False

    @property
    def formulas(self) -> list[FormulaText]:
        return [b for b in (self.least, self.most, *self.among) if isinstance(b, FormulaText)]


def stated(field: Field) -> Type | None:
    """The type of what a field states, where it may also say `by rule`."""
    return field.type.stated if isinstance(field.type, OrRule) else field.type


def compared(field: Field) -> Dimension | None:
    """What the figures of a field are compared as; None for words."""
    type = stated(field)
    if isinstance(type, Width | Offset):
        return LENGTH
    if isinstance(type, Count | Number):
        return COUNT
    if isinstance(type, ElementShare):
        return MASS_FRACTION
    return getattr(type, "dimension", None)


class Every(NamedTuple):
    """Stands for the name of each thing of a kind, or of each that says a field: all controlling
    thermocouples. What is demanded has to be there for every one of them."""

    words: str
    says: str = ""


#: By the kind of thing a name is for: how a demand says all of them.
EVERY = {
    "thermocouple": (
        Every("all thermocouples"),
        Every("controlling thermocouples", "controls"),
        Every("monitoring thermocouples", "monitors"),
    ),
    "zone": (Every("all zones"),),
}


class Target(NamedTuple):
    """Where what is demanded stands: the fields that lead from a root entry to an entry."""

    root: type[Entry]
    chain: tuple[Field, ...]

    @property
    def entry(self) -> type[Entry]:
        return self.chain[-1].entry or self.root if self.chain else self.root


class Demanded(NamedTuple):
    """One demand: an entry (in each of ``targets``) and what its fields have to say.

    ``number``: the least number of such entries, ``most`` the greatest, None where it is open;
    ``text`` is the demand as it is written, and ``meant`` a field that tells which of several
    entries is meant besides those that always do. ``in_all``: the least number in all, where the
    values asked for are several; ``each_side``: so many on each side of the weld; ``outcome``: it
    is not the entry that is asked for, but what comes of it, as it is worked out.
    """

    text: str
    targets: tuple[Target, ...]
    tests: tuple[Test, ...]
    number: int
    start: int
    end: int
    most: int | None = None
    meant: str = ""
    in_all: int = 0
    each_side: bool = False
    outcome: bool = False

    @property
    def telling(self) -> tuple[Test, ...]:
        """The tests that tell which of several entries is meant, such as the place of a hardness
        limit; the others are what that one has to say."""
        cls = self.targets[0].entry
        return tuple(
            test
            for test in self.tests
            if test.field.name in (*cls.told_by, self.meant) or _is_name(test.field)
        )

    @property
    def paths(self) -> set[str]:
        """What is asked for, as paths of the vocabulary: `joint.heating.ends`."""
        found = set()
        for target in self.targets:
            way = [title(target.root), *map(_step, target.chain)]
            found |= {".".join((*way, _step(test.field))) for test in self.tests}
            if not self.tests:
                found.add(".".join(way))
        return found

    def each(self) -> list[Demanded]:
        """The demand for each of the values that are all asked for; itself where there are none."""
        listed = next((test for test in self.tests if test.every), None)
        if listed is None:
            return [self._replace(number=max(self.number, self.in_all), in_all=0)]
        label = " ".join(listed.field.words)
        found = []
        if self.in_all:
            rest = tuple(test for test in self.tests if test is not listed)
            found += self._replace(tests=rest).each()
        for value in listed.among:
            single = listed._replace(among=(value,), every=False, words=f"{label} {value}".strip())
            tests = tuple(single if test is listed else test for test in self.tests)
            found += self._replace(tests=tests, meant=listed.field.name, in_all=0).each()
        return found


def _step(field: Field) -> str:
    """What a path calls a field."""
    if field.form == BLOCK and field.entry is not None:
        return title(field.entry)
    return field.name.rstrip("_") if field.form == VALUE else " ".join(field.words)


def _is_name(field: Field) -> bool:
    """Whether a value behind the words of an entry tells what the entry is about: one it cannot
    do without, and no figure or degree."""
    if isinstance(field.type, Choice) and field.type.ranked:
        return False
    return field.form == VALUE and field.required and compared(field) is None


class Place(NamedTuple):
    """A place of the vocabulary with the words that lead to it from its root, step by step."""

    words: tuple[tuple[str, ...], ...]
    target: Target
    leaf: Field | None
    outcome: bool = False

    @property
    def rank(self) -> int:
        """A name alone means the entry of the file that has it, then one in a block, and only
        then a clause of another entry."""
        if self.leaf is not None and self.leaf.form == WORKED_OUT:
            return min(len(self.words), 3) - 1
        if self.leaf is not None and self.leaf.form != ENTRY:
            return 2
        return int(len(self.words) > 1)

    @property
    def called(self) -> str:
        return " ".join(" ".join(step) for step in self.words)

    @property
    def kind(self) -> tuple[object, ...]:
        """Equal for places that are one declaration, which several entries share."""
        if not self.target.chain:
            shared = self.leaf and _declaring(self.target.root, self.leaf.name)
            return (shared or self.target.root, self.leaf)
        above = self.target.chain[-2].entry if len(self.target.chain) > 1 else self.target.root
        assert above is not None
        name = self.target.chain[-1].name
        return (self.target.entry, self.leaf, name, _declaring(above, name))


def _declaring(cls: type[Entry], name: str) -> type[Entry]:
    return next(
        c
        for c in reversed(cls.__mro__)
        if issubclass(c, Entry) and (name in getattr(c, "fields", {}) or name in c.worked_out)
    )


def places() -> Iterator[Place]:
    """Every place a demand can be put to, roots first."""
    for root in ROOTS:
        yield from _below(Place((root.words,), Target(root, ()), None))


def _below(place: Place) -> Iterator[Place]:
    yield place
    for _, field in steps(place.target.entry):
        if field.form == BLOCK:
            assert field.entry is not None
            words = field.words or tuple(title(field.entry).split())
            target = Target(place.target.root, (*place.target.chain, field))
            yield from _below(Place((*place.words, words), target, None))
            if field.entry.outcome_words:
                yield Place((field.entry.outcome_words,), target, None, outcome=True)
        elif field.form != VALUE:
            yield Place((*place.words, field.words), place.target, field)
        if field.asked:
            yield Place((field.asked,), place.target, field)
    for field in place.target.entry.worked_out.values():
        yield Place((*place.words, field.words), place.target, field)


@lru_cache(maxsize=1)
def by_first_word() -> dict[str, list[tuple[tuple[str, ...], Place]]]:
    """The places by the first of their words; the words of outer entries may be left out."""
    found: dict[str, list[tuple[tuple[str, ...], Place]]] = {}
    for place in places():
        for start in range(len(place.words)):
            if start and set(place.words[0]) & set(place.target.entry.only_named):
                break
            words = tuple(word for step in place.words[start:] for word in step)
            found.setdefault(words[0], []).append((words, place))
    return found


_LABELS: dict[type[Entry], dict[str, list[Field]]] = {}


def labels_of(cls: type[Entry]) -> dict[str, list[Field]]:
    """The clauses and flags of an entry by their first words, with what is worked out of it."""
    if cls not in _LABELS:
        found = _LABELS[cls] = {word: list(fields) for word, fields in cls.labels.items()}
        for field in cls.worked_out.values():
            found.setdefault(field.words[0], []).append(field)
    return _LABELS[cls]


def has_sides(cls: type[Entry]) -> bool:
    """Whether entries of a class lie on one side of the weld or the other."""
    return any(isinstance(field.type, Offset) for field in cls.fields.values())


def of_a_stage(place: Place) -> bool:
    """Whether it is work before, during or after heat: each of the three has its own."""
    return issubclass(place.target.root, Work)
