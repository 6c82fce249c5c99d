"""How an entry of the language is declared.

An entry is a class: its name in the language, its meaning (the docstring), and its fields. What the
class says is used for everything: reading into the model, checking, "did you mean", the language
reference and the JSON Schema of the exported job.

    class Zone(Entry, words="zone"):
        \"\"\"Heaters that follow one controlling thermocouple.\"\"\"
        name: str = value(Name(), "What the zone is called")
        power: Quantity | None = clause("power", Amount(POWER), "Power available to the zone")

The class object doubles as the type of what is read: `zone.power` is a Quantity or None.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from hts.base.text import Source, Span

if TYPE_CHECKING:
    from hts.language.vocabulary.types import Type

VALUE, CLAUSE, FLAG, ENTRY, BLOCK = "value", "clause", "flag", "entry", "block"
#: What follows from the rest of an entry: a demand can name it, a text cannot state it.
WORKED_OUT = "worked out"


#: A figure behind these words is a bound by itself.
_BY_WORDS = {"at most": "lower", "at least": "higher"}


class Field:
    """One thing an entry can say."""

    __slots__ = (
        "asked",
        "doc",
        "entry",
        "example",
        "family",
        "form",
        "many",
        "name",
        "of",
        "required",
        "stricter",
        "type",
        "words",
    )

    def __init__(
        self,
        form: str,
        words: str,
        type_: Type | None,
        doc: str,
        *,
        required: bool = False,
        many: bool = False,
        example: str = "",
        entry: type[Entry] | None = None,
        stricter: str = "",
        asked: str = "",
        of: tuple[str, ...] = (),
    ) -> None:
        #: Attribute of the entry's class.
        self.name = ""
        self.form = form
        self.words = tuple(words.split())
        self.type = type_
        self.doc = doc
        self.required = required
        self.many = many
        self.example = example
        self.entry = entry
        #: Which way a figure is the stricter one, "lower" or "higher"; "" where neither is.
        self.stricter = stricter or _BY_WORDS.get(" ".join(self.words[-2:]), "")
        #: Words by which a demand can begin with it, besides those of a job.
        self.asked = tuple(asked.split())
        #: Fields that what is worked out follows from, the one to look at first.
        self.of = of
        #: Classes whose entries are kept together in this one field, in the order written.
        self.family: tuple[type[Entry], ...] = ()

    @property
    def sample(self) -> str:
        """Text that says the field, with its words."""
        if self.type is None or self.form == ENTRY:
            return self.example or " ".join(self.words)
        return " ".join((*self.words, self.example or self.type.example))


def value(type: Type, doc: str, *, optional: bool = False, many: bool = False) -> Any:
    """What stands right after the entry's words; ``many``: one or more, parted by commas."""
    return Field(VALUE, "", type, doc, required=not optional, many=many)


def clause(
    words: str,
    type: Type,
    doc: str,
    *,
    required: bool = False,
    many: bool = False,
    example: str = "",
    stricter: str = "",
    asked: str = "",
) -> Any:
    """A labelled value; ``many``: the clause may be repeated; ``example``: that of the type
    unless said; ``stricter``: which way a figure asks for more, "lower" or "higher"; ``asked``:
    words by which a demand can begin with it, besides its own."""
    return Field(
        CLAUSE,
        words,
        type,
        doc,
        required=required,
        many=many,
        example=example,
        stricter=stricter,
        asked=asked,
    )


def worked_out(words: str, type: Type, doc: str, *, of: tuple[str, ...], stricter: str = "") -> Any:
    """What a demand can bound and a text cannot state, as it follows from fields ``of`` the entry,
    the one to look at first."""
    return Field(WORKED_OUT, words, type, doc, stricter=stricter, of=of)


def flag(words: str, doc: str) -> Any:
    """Words that say something by standing there."""
    return Field(FLAG, words, None, doc)


def entry(
    words: str,
    type: Type,
    doc: str,
    *,
    example: str,
    required: bool = False,
    many: bool = False,
    stricter: str = "",
) -> Any:
    """An entry of one value inside the block; ``many``: it may be repeated; ``stricter`` as for
    a clause."""
    return Field(
        ENTRY, words, type, doc, required=required, many=many, example=example, stricter=stricter
    )


def inner(cls: type[Entry], *, required: bool = False, many: bool = False) -> Any:
    """An entry with a class of its own inside the block."""
    return Field(
        BLOCK,
        " ".join(cls.words),
        None,
        cls.meaning(),
        required=required,
        many=many,
        example=cls.example,
        entry=cls,
    )


def family(*classes: type[Entry], doc: str, required: bool = False) -> Any:
    """Entries of several classes kept in one list in the order written, as the steps of a cycle."""
    field = Field(BLOCK, "", None, doc, required=required, many=True, example=classes[0].example)
    field.family = classes
    return field


class Entry:
    """Base of every entry: where it stands, and what it says in the fields of its subclass."""

    words: ClassVar[tuple[str, ...]] = ()
    example: ClassVar[str] = ""
    #: Fields by how they are found while reading.
    values: ClassVar[list[Field]]
    labels: ClassVar[dict[str, list[Field]]]
    children: ClassVar[dict[str, list[Field]]]
    #: The inner entry that begins with a name of the user's choice instead of a fixed word.
    named: ClassVar[Field | None]
    fields: ClassVar[dict[str, Field]]
    #: What follows from the fields, for demands alone.
    worked_out: ClassVar[dict[str, Field]] = {}
    #: Inner entries without words of their own: each tells by itself which lines are its.
    wordless: ClassVar[list[Field]]
    needs_block: ClassVar[bool] = False
    #: Besides the values behind its words: fields that tell which of several such entries is meant.
    told_by: ClassVar[tuple[str, ...]] = ()
    #: Fields of which the entry says at least one; none: it may say what it likes.
    one_of: ClassVar[tuple[str, ...]] = ()
    #: Fields that are the least and the greatest of one range.
    from_to: ClassVar[tuple[str, ...]] = ()
    #: Words by which a demand asks for the outcome of what the entry is about, which is worked out,
    #: and not for the entry.
    outcome_words: ClassVar[tuple[str, ...]] = ()
    #: Words of blocks that a demand of this entry is put to only where it names them.
    only_named: ClassVar[tuple[str, ...]] = ()
    #: How a message names an entry without words.
    plainly: ClassVar[str] = "the file"

    source: Source
    start: int
    end: int
    places: dict[str, tuple[int, int]]
    #: False once anything in the entry or below it could not be read.
    sound: bool = True
    address: str = ""
    #: Fields that the text does not say and a configuration does.
    configured: tuple[str, ...] = ()
    #: The entry this one was begun `like`; what is not written here was written there.
    base: Entry | None = None

    def __init_subclass__(
        cls, words: str = "", example: str = "", block: bool | None = None
    ) -> None:
        """``words``: how the entry begins (none: with a name). ``block``: whether it needs one."""
        cls.words = tuple(words.split())
        cls.example = example
        cls.fields = dict(getattr(cls, "fields", {}))
        cls.worked_out = dict(cls.worked_out)
        for name, field in list(vars(cls).items()):
            if type(field) is Field:
                if hasattr(Entry, name) or name in Entry.__annotations__:
                    raise TypeError(f"{cls.__name__}.{name} hides an attribute of every entry")
                field.name = name
                known = cls.worked_out if field.form == WORKED_OUT else cls.fields
                known[name] = field
                setattr(cls, name, _absent(field))
        cls.values = []
        cls.labels = {}
        cls.children = {}
        cls.named = None
        cls.wordless = []
        for field in cls.fields.values():
            if field.form == VALUE:
                cls.values.append(field)
            elif field.form in (CLAUSE, FLAG):
                cls.labels.setdefault(field.words[0], []).append(field)
            elif field.family:
                for member in field.family:
                    child = Field(
                        BLOCK,
                        " ".join(member.words),
                        None,
                        member.meaning(),
                        many=True,
                        example=member.example,
                        entry=member,
                    )
                    child.name = field.name
                    if member.words:
                        cls.children.setdefault(member.words[0], []).append(child)
                    else:
                        cls.wordless.append(child)
            elif field.entry is not None and not field.words:
                cls.named = field
            else:
                cls.children.setdefault(field.words[0], []).append(field)
        for found in (*cls.labels.values(), *cls.children.values()):
            found.sort(key=lambda field: -len(field.words))
        cls.needs_block = bool(cls.children or cls.named) if block is None else block

    @classmethod
    def meaning(cls) -> str:
        """First sentence of the docstring."""
        return " ".join((cls.__doc__ or "").strip().split("\n\n")[0].split())

    @classmethod
    def takes_line(cls, items: Sequence[Any]) -> bool:
        """Whether a line is one of these: asked of an entry without words of its own."""
        return False

    @classmethod
    def takes_block(cls) -> bool:
        return bool(cls.children or cls.named)

    def place(self, field: str = "") -> Span:
        """Where a field was written; the entry's first words where the field is absent."""
        place = self.places.get(field)
        if place is not None:
            return self.source.span(*place)
        if self.base is not None and field and self.base.says(field):
            return self.base.place(field)
        return self.source.span(self.start, self.end)

    def spared(self) -> tuple[str, ...]:
        """Fields this one can do without although entries of its kind must say them."""
        return ()

    def says(self, field: str) -> bool:
        """Whether the field was written, readable or not."""
        return field in self.places or (self.base is not None and self.base.says(field))


def _absent(field: Field) -> Any:
    if field.form == FLAG:
        return False
    # A tuple, because the class attribute is shared by all entries that do not say the field.
    return () if field.many else None
