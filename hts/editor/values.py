"""What can be written as a value of each type."""

from __future__ import annotations

from functools import lru_cache

from hts.base.quantities import DIMENSIONS, symbols_of
from hts.editor.choices import WIDTHS, choices_of
from hts.editor.dimensions import dimensions_of
from hts.editor.offer import CHOICE, FACT, FILE, NAME, UNIT, VALUE, Offer, Surroundings
from hts.editor.phrase import stated
from hts.editor.place import Text as PlacedText
from hts.editor.snippets import value_snippet
from hts.language.vocabulary import declare
from hts.language.vocabulary.column import LeadsTo, UnitName
from hts.language.vocabulary.declare import Field
from hts.language.vocabulary.demand_text import DemandText
from hts.language.vocabulary.demanded import EVERY, by_first_word, has_sides, labels_of
from hts.language.vocabulary.formulas import ConditionText, Expression
from hts.language.vocabulary.joint import Joint
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.types import (
    ELEMENTS,
    SIDES,
    Address,
    BookEdition,
    Choice,
    Clock,
    Count,
    Day,
    ElementShare,
    Joints,
    Name,
    Offset,
    OrRule,
    Range,
    Size,
    Text,
    To,
    Type,
    Width,
)
from hts.limits import FACTS, UnknownEdition, book, books
from hts.syntax import Token
from hts.syntax.formula.functions import FUNCTIONS

_BOUNDS = ("QUANTITY", "NUMBER", "MULTIPLE")


def value_offers(field: Field, before: list[Token], around: Surroundings) -> list[Offer]:
    """What goes on a value of which ``before`` has been written."""
    type_ = field.type
    assert type_ is not None
    words = [token.text for token in before]
    offers: list[Offer] = []
    if isinstance(type_, OrRule) and (not before or words == ["by"]):
        left = "rule" if before else "by rule"
        offers.append(Offer(left, left, CHOICE, "the rules in force give the value", rank=3))
    type_ = stated(type_)
    assert type_ is not None
    offers += _units(type_, before)
    offers += _words(field, type_, before, words, around)
    if not before and not isinstance(type_, Choice | To | Address | BookEdition | Expression):
        offers += _example(field, type_, around)
    return offers


def phrases(choices: tuple[str, ...], words: list[str], kind: str, detail: str) -> list[Offer]:
    """The choices that begin with the words written, from there on."""
    return [
        Offer(left, left, kind, detail)
        for choice in choices
        if choice.split()[: len(words)] == words
        and (left := " ".join(choice.split()[len(words) :]))
    ]


def _units(type_: Type, before: list[Token]) -> list[Offer]:
    if not before or before[-1].kind != "NUMBER":
        return []
    found: dict[str, Offer] = {}
    for dimension in dimensions_of(type_):
        for rank, symbol in enumerate(symbols_of(dimension)):
            offer = Offer(symbol, symbol, UNIT, dimension.name, rank=3 if rank < 3 else 4)
            found.setdefault(symbol, offer)
    return list(found.values())


def _words(
    field: Field, type_: Type, before: list[Token], words: list[str], around: Surroundings
) -> list[Offer]:
    """The words a value can go on with."""
    doc = field.doc
    if isinstance(type_, Choice):
        return phrases(type_.choices, words, CHOICE, doc)
    if isinstance(type_, To):
        if isinstance(type_, Joints) and len(before) < 5 and (not before or words[0] == "each"):
            return _joints(words, around)
        if before:
            return []
        return [
            Offer(each.name, each.name, NAME, each.what, each.about, rank=3)
            for each in around.names.of_kind(type_.what, around.line)
        ]
    if isinstance(type_, BookEdition):
        return _books(before, around)
    if isinstance(type_, Name) and type_.of:
        return [] if before else _named(type_.of, around)
    if isinstance(type_, Size):
        return [] if before else phrases(type_.known, words, CHOICE, doc)
    if isinstance(type_, Width) and before and before[-1].kind in _BOUNDS:
        return phrases(WIDTHS, [], CHOICE, "what the width counts")
    if isinstance(type_, Width) and words[-1:] in (["each"], ["in"]):
        return phrases(WIDTHS, words[-1:], CHOICE, "what the width counts")
    if isinstance(type_, Offset) and before:
        said = [token.text for token in before if token.kind == "WORD"]
        return phrases(SIDES, said, CHOICE, "to which side of the weld")
    if isinstance(type_, Range) and before and before[-1].kind in _BOUNDS:
        if len(before) > 1:
            return []
        return [Offer("..", ".. ", VALUE, "up to"), Offer("+/-", "+/- ", VALUE, "more or less")]
    if isinstance(type_, ElementShare) and not before:
        return [Offer(each, f"{each} ", CHOICE, "element") for each in sorted(ELEMENTS)]
    if isinstance(type_, Address):
        return _addresses(words, around)
    if isinstance(type_, Expression):
        return _formula(type_, words)
    if isinstance(type_, DemandText):
        return _demand(before, words, around)
    if isinstance(type_, LeadsTo):
        return phrases(_leads(), words, CHOICE, "entry of the joint")
    if isinstance(type_, UnitName):
        return [] if before else [Offer(unit, unit, UNIT, "unit of the cells") for unit in _UNITS]
    return []


def _joints(words: list[str], around: Surroundings) -> list[Offer]:
    """Joints by name, or each of a list of welds."""
    if words == ["each"]:
        return [Offer("of", "of ", CHOICE, "each of a weld list")]
    if len(words) == 3:
        return [Offer("like", "like ", CHOICE, "those of one typical joint")]
    what = "weld list" if len(words) == 2 else "joint"
    named = around.names.of_kind(what, around.line)
    found = [Offer(each.name, each.name, NAME, each.what, each.about, rank=3) for each in named]
    if not words:
        found.append(Offer("each of", "each of ", CHOICE, "the welds of a weld list"))
    return found


def _example(field: Field, type_: Type, around: Surroundings) -> list[Offer]:
    """Values that are likely, and an example of the type to be overwritten."""
    if isinstance(type_, Count) and field.words[-1:] == ("channel",):
        return [
            Offer(str(free), str(free), VALUE, "the lowest that is free", rank=rank)
            for rank, free in enumerate(free_channels(field, around), 2)
        ]
    if isinstance(type_, Day) and around.today:
        return [Offer(around.today, around.today, VALUE, "today")]
    if isinstance(type_, Clock):
        return [Offer(hour, hour, VALUE, field.doc) for hour in ("12:00", "3:00", "6:00", "9:00")]
    if isinstance(type_, Text) and field.name == "path":
        return [
            Offer(f'"{name}"', f'"{name}"', FILE, "text of this folder") for name in around.files()
        ]
    if isinstance(type_, Name):
        return _names(field, around)
    example = field.example.removeprefix(" ".join(field.words)).strip() or type_.example
    if isinstance(type_, Size) and type_.known:
        return []
    if not example:
        return []
    return [
        Offer(
            example, example, VALUE, f"for example ({type_.words})", "", value_snippet(example), 6
        )
    ]


def free_channels(field: Field, around: Surroundings, most: int = 3) -> list[int]:
    """The lowest channels that no thermocouple of the joint has yet."""
    text = around.names.own.text
    line = around.line
    taken: set[str] = set()
    home = line.parent if line is not None else None
    for other in home.inner if home is not None else ():
        if other is line:
            continue
        phrase = text.phrase(other)
        for value in phrase.values:
            if value.field is field:
                taken.add(phrase.text[value.start : value.end])
    free = (number for number in range(1, 200) if str(number) not in taken)
    return [next(free) for _ in range(most)]


def _names(field: Field, around: Surroundings) -> list[Offer]:
    """A name of one's own: the next revision, the markings of cables."""
    about = field.type.words if field.type is not None else ""
    if "revision" in about:
        return [Offer(name, name, VALUE, "revision", rank=3) for name in _revisions(around)]
    if "cable" in about:
        from hts.science.thermocouples import facts

        codes = facts.facts("extension_codes")["codes"]
        return [
            Offer(code, code, CHOICE, f"cable for type {', '.join(types)}")
            for code, types in codes.items()
        ]
    return []


def _revisions(around: Surroundings) -> list[str]:
    """Revisions of the history and the one after the last."""
    text = around.names.own.text
    known = [
        place.word
        for place in text.places()
        if place.path in ("job.history.history line.name", "job.revision.name")
        and place.line is not around.line
    ]
    if not known:
        return ["A", "0"]
    last = known[-1]
    following = str(int(last) + 1) if last.isdigit() else ""
    if len(last) == 1 and last.isalpha() and last not in "zZ":
        following = chr(ord(last) + 1)
    return [name for name in dict.fromkeys([following, *known[::-1]]) if name]


def _books(before: list[Token], around: Surroundings) -> list[Offer]:
    if not before:
        own = [
            Offer(name, name, NAME, "rule book of this repository", rank=2)
            for name in around.books()
        ]
        return own + [
            Offer(name, f"{name} " if editions_of(name) else name, NAME, "rule book", rank=3)
            for name in books()
        ]
    editions = editions_of(before[0].text)
    if len(before) == 1 and before[0].text in around.books():
        return [Offer("edition", "edition ", CHOICE, "edition of the book")]
    if len(before) == 1 and editions:
        return [Offer(f"edition {each}", f"edition {each}", CHOICE, "edition") for each in editions]
    if len(before) == 2 and before[1].text == "edition":
        return [Offer(each, each, CHOICE, "edition") for each in editions]
    return []


def editions_of(name: str) -> tuple[str, ...]:
    """The editions of a book, newest last; none where it has none or is not known."""
    try:
        book(name)
    except UnknownEdition as error:
        return error.editions
    except LookupError:
        return ()
    return ()


def _named(of: str, around: Surroundings) -> list[Offer]:
    if of == "rule":
        return [Offer(name, name, NAME, about, rank=4) for name, about in around.rules()]
    if of == "row":
        from hts.limits import book as read_book

        return _own_rows(around) + [
            Offer(f"{name}.{limit.id}", f"{name}.{limit.id}", NAME, limit.quantity)
            for name in books()
            if not editions_of(name)
            for limit in read_book(name).limits
        ]
    procedures = around.names.of_kind("procedure")
    found = [Offer(each.name, each.name, NAME, each.about, rank=3) for each in procedures]
    every = (*around.books(), *books())
    return found + [Offer(name, name, NAME, "rule book") for name in every]


def _own_rows(around: Surroundings) -> list[Offer]:
    """The lines of procedures, as others name them."""
    return [
        Offer(name, name, NAME, "line of a procedure")
        for procedure in around.names.of_kind("procedure")
        for line in procedure.line.inner
        if (field := procedure.text.phrase(line).field) is not None
        for name in [f"{procedure.name}.{'-'.join(field.words)}"]
    ]


def _addresses(words: list[str], around: Surroundings) -> list[Offer]:
    """Addresses of the text; behind a stroke what lies below."""
    text: PlacedText = around.names.own.text
    written = "".join(words)
    found: dict[str, None] = {}
    for line in text.outline.lines:
        phrase = text.phrase(line)
        if phrase.cls is not None:
            found.setdefault(text.address(line))
    for line in text.outline.top:
        below = [a for a in found if a.split("/")[0] == text.address(line)]
        for joint in (p.word for p in text.places_of(line) if p.names == "joint"):
            found.setdefault(joint)
            found.update((f"{joint}/{address}", None) for address in below)
    return [
        Offer(each[len(written) :], each[len(written) :], NAME, "address")
        for each in found
        if each and each.startswith(written) and each != written and " " not in each
    ]


#: The units a column can be in.
_UNITS = tuple(dict.fromkeys(symbol for each in DIMENSIONS for symbol in symbols_of(each)))


@lru_cache(maxsize=1)
def _leads() -> tuple[str, ...]:
    """The words a column of a table can lead to: entries of a joint, and their clauses."""
    found: dict[str, None] = {}
    for _, chain, field in walk(Joint):
        outer = [word for cls in chain[1:] for word in cls.words]
        if field.form == declare.VALUE:
            own = [choice.split() for choice in choices_of(field.type)]
        else:
            own = [list(field.words)]
            own += [[*field.words, *choice.split()] for choice in choices_of(field.type)]
        found.update((" ".join([*outer, *words]), None) for words in own if words or outer)
    return tuple(found)


def _demand(before: list[Token], words: list[str], around: Surroundings) -> list[Offer]:
    """Entries of a job in its own words, and what such an entry says."""
    known = by_first_word()
    every = [(each, place) for found in known.values() for each, place in found]
    offers = phrases(tuple(dict.fromkeys(" ".join(w) for w, _ in every)), words, CHOICE, "entry")
    if not words:
        return [*offers, Offer("at least", "at least ", CHOICE, "how many there have to be")]
    if before[-1].kind == "NUMBER":
        offers += [Offer(unit, unit, UNIT, "unit") for unit in _UNITS]
    every_word: dict[str, None] = dict.fromkeys(("or", "at least", "at most"))
    for each, place in known.get(words[0], ()) or every:
        if [*each] != words[: len(each)] and known.get(words[0]):
            continue
        fields = [field for found in labels_of(place.target.entry).values() for field in found]
        fields += [*place.target.entry.values, *([place.leaf] if place.leaf is not None else [])]
        for field in fields:
            if field.words:
                every_word[" ".join(field.words)] = None
            every_word.update((choice, None) for choice in choices_of(field.type))
            if isinstance(field.type, To):
                every_word.update((each.words, None) for each in EVERY.get(field.type.what, ()))
        if has_sides(place.target.entry):
            every_word.update(dict.fromkeys(("count", "each side")))
    for count in range(min(4, len(words)) + 1):
        tail = words[len(words) - count :]
        offers += phrases(tuple(every_word), tail, CHOICE, "what it says")
    return offers


def _formula(type_: Expression, words: list[str]) -> list[Offer]:
    offers = [Offer(name, name, FACT, fact.meaning, rank=4) for name, fact in FACTS.items()] + [
        Offer(name, f"{name}(", FACT, "function", "", f"{name}($1)$0") for name in FUNCTIONS
    ]
    if isinstance(type_, ConditionText):
        begun = words[-1:] if words[-1:] == ["is"] else []
        offers += phrases(("and", "or", "not", "in (", "is known"), begun, CHOICE, "condition")
        for name in words:
            fact = FACTS.get(name)
            choices = getattr(fact.kind, "words", ()) if fact is not None else ()
            offers += [Offer(each, each, CHOICE, name, rank=3) for each in choices]
    if type_.sided and words:
        tail = words[-1:] if words[-1] == "each" else []
        offers += phrases(("total", "each side"), tail, CHOICE, "what the width counts")
    return offers
