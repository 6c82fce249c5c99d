"""What a specification says, as facts with an address: a tree of things, each with its facts."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

from hts.base.text import Span
from hts.job.comparison.canonical import canonical, shown, spelling
from hts.job.comparison.demands import subject
from hts.job.comparison.unsaid import UNSAID
from hts.language.vocabulary.declare import BLOCK, VALUE, Entry, Field
from hts.language.vocabulary.demand_lines import Requires
from hts.language.vocabulary.demanded import Demanded
from hts.language.vocabulary.paths import title
from hts.language.vocabulary.segments import Cool, Heat, Hold
from hts.language.vocabulary.types import ByRule, Edition, Number, Reference, Share
from hts.science.tables import grades

#: Steps that come one after another: told apart by their place in the order.
SEQUENCE = (Heat, Hold, Cool)


class Fact(NamedTuple):
    """One value. `value` is what was read, or the text shown where it was worked out; `counts`
    whether it has more and less; `refers` is the kind of thing a name stands for; `field` says
    where in `entry` it was written. `otherwise` is the same as another field would say it: its
    path and its one spelling."""

    path: str
    canonical: str
    value: Any
    entry: Entry
    field: str
    counts: bool = False
    refers: str = ""
    otherwise: tuple[str, str] | None = None

    @property
    def unsaid(self) -> bool:
        """Whether it says what holds where nothing is said."""
        return UNSAID.get(self.path) == self.canonical

    @property
    def text(self) -> str:
        """As written, with the other system of units in brackets."""
        return shown(self.value)

    @property
    def place(self) -> Span:
        return self.entry.place(self.field)


class SpecNode:
    """A thing with facts and things of its own. `label` names it in an address; `key` tells it
    from others of its `path` (empty: there is only one)."""

    __slots__ = ("_mark", "children", "entry", "facts", "implied", "key", "label", "named", "path")

    def __init__(
        self, path: str, entry: Entry, label: str, key: str = "", named: bool = False
    ) -> None:
        self.path = path
        self.entry = entry
        self.label = label
        self.key = key
        #: Whether others may refer to it by its name.
        self.named = named
        self.facts: dict[str, Fact] = {}
        #: What follows from the rest where it is not stated, by the labels it would have.
        self.implied: dict[str, Fact] = {}
        self.children: dict[str, list[SpecNode]] = {}
        self._mark: tuple[Any, ...] | None = None

    def called(self, name: str) -> SpecNode:
        """The same under another name; what is below is shared."""
        made = SpecNode(self.path, self.entry, name, name, named=True)
        made.facts = dict(self.facts)
        made.implied = self.implied
        made.children = dict(self.children)
        return made

    def everything(self) -> Iterator[tuple[str, Fact]]:
        """Every fact at or below the thing, with its address from here."""
        for step, fact in self.facts.items():
            yield step, fact
        for nodes in self.children.values():
            for node in nodes:
                for step, fact in node.everything():
                    yield f"{node.label}/{step}", fact

    def is_key(self, fact: Fact) -> bool:
        """Whether a fact is what the thing is called."""
        # Two demands that are about the same may ask for more or less.
        if fact.entry is not self.entry or isinstance(fact.value, Demanded):
            return False
        return fact.field in plan(type(fact.entry)).keys

    @property
    def mark(self) -> tuple[Any, ...]:
        """All it says but for what it is called: two things with the same mark say the same."""
        if self._mark is None:
            facts = sorted(
                (step, f.canonical)
                for step, f in self.facts.items()
                if not self.is_key(f) and not f.unsaid
            )
            inner = [(group, _marks(nodes)) for group, nodes in sorted(self.children.items())]
            self._mark = (self.path, tuple(facts), tuple(inner))
        return self._mark

    @property
    def place(self) -> Span:
        return self.entry.place()


def _marks(nodes: list[SpecNode]) -> tuple[Any, ...]:
    marks = [(node.path, node.key, node.mark) for node in nodes]
    return tuple(marks if isinstance(nodes[0].entry, SEQUENCE) else sorted(marks))


#: Names that are written in several ways and looked up in one.
_SPELT: dict[str, Callable[[str], str]] = {
    "material.grade": grades.canonical,
    "filler.classification": lambda name: "".join(name.upper().split()),
}
_WORDS = (str, bool, Reference, Edition, ByRule)

#: What tells entries of one kind apart, where it is not the first value.
_KEYS: dict[str, tuple[str, ...]] = {
    "Waive": ("rule", "on"),
    "Treatment": ("when",),
    "Responsibility": ("role", "duty"),
    "Qualification": ("role", "needs"),
    "Earlier": ("what",),
    "Excursion": ("each",),
    "RateExcursion": ("each",),
    "Signature": ("role",),
}


class Plan(NamedTuple):
    """How entries of a class become things: the fields that tell one from another, the leaves with
    their step in a path and in an address, and the inner entries."""

    keys: tuple[str, ...]
    leaves: tuple[tuple[Field, str, str], ...]
    blocks: tuple[Field, ...]


_plans: dict[type[Entry], Plan] = {}


def plan(cls: type[Entry]) -> Plan:
    """The plan of a class, made once."""
    if cls not in _plans:
        leaves = []
        blocks = []
        for field in cls.fields.values():
            if field.name == "without":  # told by what is then not there
                continue
            if field.form == BLOCK:
                blocks.append(field)
            else:
                step = field.name.rstrip("_") if field.form == VALUE else " ".join(field.words)
                leaves.append((field, step, step.replace(" ", "-")))
        _plans[cls] = Plan(_keys(cls), tuple(leaves), tuple(blocks))
    return _plans[cls]


def _keys(cls: type[Entry]) -> tuple[str, ...]:
    if issubclass(cls, SEQUENCE):
        return ()
    if "name" in cls.fields:
        return ("name",)
    if "quantity" in vars(cls):  # a limit of a procedure, told by its words and its condition
        return ("when",)
    known = _KEYS.get(cls.__name__)
    if known is not None:
        return known
    first = next((f.name for f in cls.fields.values() if f.form == VALUE and not f.many), None)
    return (first,) if first is not None else ()


def node_of(entry: Entry, path: str, label: str, skip: frozenset[str] = frozenset()) -> SpecNode:
    """An entry with all below it, but for the fields in `skip` of its own."""
    cls = type(entry)
    made = SpecNode(
        path, entry, label, key_of(entry), isinstance(getattr(entry, "name", None), str)
    )
    planned = plan(cls)
    for field, step, label in planned.leaves:
        value = getattr(entry, field.name)
        if value is None or value is False or field.name in skip:
            continue
        put_facts(made, entry, field, (step, label), value)
    for field in planned.blocks:
        value = getattr(entry, field.name)
        if value and field.name not in skip:
            counts: dict[str, int] = {}
            for inner in value if field.many else (value,):
                # A limit on a figure of a job requires it, whichever way it is written.
                step = title(Requires if isinstance(inner, Requires) else type(inner))
                counts[step] = number = counts.get(step, 0) + 1
                _add(made, field, inner, step, number)
    return made


def _add(parent: SpecNode, field: Field, entry: Entry, step: str, number: int) -> None:
    """Puts an entry of a field below a thing; it is the ``number``-th of its words."""
    siblings = parent.children.setdefault(field.name, [])
    label = step.replace(" ", "-")
    path = f"{parent.path}.{step}"
    if isinstance(entry, SEQUENCE):
        label = f"{label}-{number}"
    elif field.many:
        key = key_of(entry, spelling)
        # A tag or the name of a zone says enough; a text needs to be told what it is.
        named = isinstance(getattr(entry, "name", None), str)
        label = key if named else f"{label}[{key}]" if key else label
    made = node_of(entry, path, label)
    siblings.append(made if field.many else only(made))


def only(node: SpecNode) -> SpecNode:
    """The only one of its kind needs no name to be told by."""
    node.key, node.named = "", False
    return node


def put_facts(
    node: SpecNode, entry: Entry, field: Field, steps: tuple[str, str], value: Any
) -> None:
    """Puts what a field says among the facts of a thing; a list of values is a set of facts.
    `steps`: what the field is called in a path and in an address."""
    path = f"{node.path}.{steps[0]}"
    label = steps[1]
    if not field.many:
        node.facts[label] = fact_of(path, entry, field, value)
    elif field.name == "precedence":  # here the order is what is said
        if text := ", ".join(value):
            node.facts[label] = Fact(path, text, text, entry, field.name)
    else:
        for one in value:
            node.facts[f"{label}[{_member(one)}]"] = fact_of(path, entry, field, one)


def fact_of(path: str, entry: Entry, field: Field, value: Any) -> Fact:
    """A value of a field as a fact."""
    # Preheat and bake widths count from the edges of the weld, all others from its centreline.
    beside = field.name == "width" and path in ("preheat.width", "bake.width")
    refers = value.what if isinstance(value, Reference) else ""
    counts = not isinstance(value, _WORDS) or isinstance(field.type, Number)
    spell = _SPELT.get(path)
    spelt = spell(value) if spell is not None else canonical(value, field, beside)
    return Fact(path, spelt, value, entry, field.name, counts, refers)


def key_of(entry: Entry, spell: Callable[[Any], str] | None = None) -> str:
    """What tells an entry from others of its class, in the one spelling or in another."""
    parts = []
    for name in plan(type(entry)).keys:
        value = getattr(entry, name)
        if value is not None and value is not False:
            field = type(entry).fields[name]
            words = " ".join(field.words) if value is True else ""
            if isinstance(value, Demanded) and spell is None:
                parts.append(subject(value))
                continue
            parts.append(words or (spell(value) if spell is not None else canonical(value, field)))
    return "; ".join(parts)


def _member(value: Any) -> str:
    """What tells one of several values of a field from the others."""
    if isinstance(value, Share):
        return value.element
    if isinstance(value, Edition):
        return value.book
    if isinstance(value, Reference):
        return value.name
    return str(value)
