"""Reads what a line of a procedure demands: an entry in the words of a job, and how it is to be."""

from __future__ import annotations

from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.declare import CLAUSE
from hts.language.vocabulary.demand_tests import LEAST, MOST, Wanted
from hts.language.vocabulary.demanded import (
    Demanded,
    Place,
    Target,
    Test,
    by_first_word,
    of_a_stage,
    places,
)
from hts.language.vocabulary.types import Json, Type

#: Ways to relieve stress that are not by heat.
_NOT_BY_HEAT = ("mechanical", "vibrat", "peen", "overload", "proof test", "hydrostatic")


class DemandText(Type):
    """An entry of a job in its own words, and what it has to say."""

    words = "an entry of a job, in its own words"
    example = "thermocouples attached capacitor discharge"

    def __init__(self, outcomes: bool = False, example: str = example) -> None:
        """``outcomes``: whether it can ask for what comes of an entry, as it is worked out."""
        self.outcomes = outcomes
        self.example = example

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind in ("WORD", "NUMBER")

    def read(self, cursor: Cursor) -> Demanded:
        first = cursor.item
        if first is None:
            raise self.wrong(cursor)
        begun = cursor.at
        count, most = _count(cursor, LEAST), _count(cursor, MOST)
        found = _places(self, cursor)
        wanted = Wanted(cursor, found[0])
        last = cursor.items[cursor.at - 1]
        text = " ".join(cursor.text(item) for item in cursor.items[begun : cursor.at])
        text = text.replace(" ,", ",")
        targets = tuple(dict.fromkeys(place.target for place in found))
        for test in wanted.tests:
            _refuse_impossible(test, targets[0], first.start, last.end)
        if found[0].outcome and not self.outcomes:
            raise Misread(
                mistakes.WRONG_VALUE,
                f"`{found[0].called}` can be required and no more",
                first.start,
                last.end,
                f"write it in a line of its own: `requires {found[0].called} …`",
            )
        if found[0].outcome:
            _require_bounds(wanted.tests, found[0], first.start, last.end)
        # At most two of them are met by none.
        least = count if count is not None else 1 if most is None else 0
        return Demanded(
            text,
            targets,
            wanted.tests,
            least,
            first.start,
            last.end,
            most,
            in_all=wanted.count,
            each_side=wanted.each_side,
            outcome=found[0].outcome,
        )

    def export(self, value: Demanded) -> Json:
        return value.text


def _count(cursor: Cursor, bound: tuple[str, str]) -> int | None:
    """How many of the entry there have to be, where the demand begins `at least 2`, or how many
    there can be."""
    length = cursor.matches(bound)
    if not length or cursor.at + length + 1 >= len(cursor.items):
        return None
    item = cursor.items[cursor.at + length]
    if item.kind != "NUMBER" or not cursor.text(item).isdigit():
        return None
    cursor.at += length + 1
    return max(1, int(cursor.text(item)))


def _places(type: DemandText, cursor: Cursor) -> list[Place]:
    """What the words at the cursor name; it moves past them."""
    longest, found = 0, list[Place]()
    for words, place in by_first_word().get(cursor.word(), ()):
        length = cursor.matches(words)
        if words[-1] == "at" and cursor.word(length) in ("least", "most"):
            continue
        if length > longest:
            longest, found = length, []
        if length and length == longest:
            found.append(place)
    if not found:
        raise _unknown(type, cursor)
    first = min(place.rank for place in found)
    found = [place for place in found if place.rank == first]
    if len({place.kind for place in found}) > 1 or (len(found) > 1 and of_a_stage(found[0])):
        start = cursor.items[cursor.at].start
        end = cursor.items[cursor.at + longest - 1].end
        raise Misread(
            mistakes.WRONG_VALUE,
            f"{cursor.source.text[start:end]!r} can mean several entries of a job",
            start,
            end,
            "say which: " + ", ".join(f"`{place.called}`" for place in found[:6]),
        )
    cursor.at += longest
    return found


def _unknown(type: DemandText, cursor: Cursor) -> Misread:
    from hts.language.vocabulary.suggest import nearest  # wanted by messages only

    if cursor.item is None:
        return type.wrong(cursor)
    more = 0
    while cursor.word(more + 1) and cursor.word(more + 1) not in cursor.labels and more < 3:
        more += 1
    start, end = cursor.items[cursor.at].start, cursor.items[cursor.at + more].end
    written = cursor.source.text[start:end]
    called = {" ".join(step[-1]): None for step in (p.words for p in places())}
    if any(word in written.lower() for word in _NOT_BY_HEAT):
        help = 'this is not done by heat, and out of scope: ask for it with `check "…"`'
        return Misread(
            mistakes.UNKNOWN_CHOICE, f"{written!r} is not an entry of a job", start, end, help
        )
    if cursor.kind == "NUMBER":
        number = cursor.text(cursor.items[cursor.at])
        return Misread(
            mistakes.WRONG_VALUE,
            f"{number} is given where {type.words} is expected",
            start,
            cursor.items[cursor.at].end,
            f"say whether there are to be `at least {number}` or `at most {number}`",
        )
    guess = nearest(written, called) or nearest(cursor.text(cursor.items[cursor.at]), called)
    return Misread(
        mistakes.UNKNOWN_CHOICE,
        f"{written!r} is not an entry of a job",
        start,
        end,
        f"did you mean `{guess}`?"
        if guess
        else f"write it as a job does, for example `{type.example}`",
    )


def _refuse_impossible(test: Test, target: Target, begun: int, end: int) -> None:
    """Raises Misread where all of several values are asked of what can say one alone."""
    several = test.field.many or (target.chain and target.chain[-1].many)
    if test.every and not several:
        raise Misread(
            mistakes.WRONG_VALUE,
            f"{len(test.among)} values are asked for, and a job says one here",
            begun,
            end,
            "part them by `or` where one of them will do",
        )


def _require_bounds(tests: tuple[Test, ...], place: Place, begun: int, end: int) -> None:
    """Raises Misread where an outcome is asked for without what it is judged by."""
    tested = {test.field.name for test in tests}
    for field in place.target.entry.fields.values():
        if field.form == CLAUSE and field.required and field.name not in tested:
            raise Misread(
                mistakes.MISSING_VALUE,
                f"`{place.called}` does not say `{' '.join(field.words)}`",
                begun,
                end,
                f"add it, for example: {field.sample}",
            )
