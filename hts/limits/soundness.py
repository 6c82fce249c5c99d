"""What is wrong with a book that its schema cannot know: names, words, formulas and their units."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from hts.limits.books import System, from_data, is_seen
from hts.limits.facts import FACTS
from hts.limits.limit import Limit
from hts.limits.printed_pairs import faults
from hts.limits.quantities import LIMITED, OPTION, TAKEN
from hts.syntax.formula import Text

_DIRECTIONS = ("minimum", "maximum", "exactly")
_SYSTEMS: tuple[System, ...] = ("SI", "US")
_WRITTEN = {"minimum": "at_least", "maximum": "at_most", "exactly": "is"}
#: No condition is made up for what the facts do not say: people have to be told it instead.
_NO_SUCH_FACT = "; what none of the facts says, tell in cautions"


class Problem(NamedTuple):
    """`place` in words, and `steps` that lead to it in the data; of a formula `start` and `end` are
    the offsets in its text."""

    place: str
    message: str
    steps: tuple[str | int, ...]
    start: int | None = None
    end: int | None = None

    def __str__(self) -> str:
        column = "" if self.start is None else f", from column {self.start + 1}"
        return f"{self.place}{column}: {self.message}"


def problems(data: Any) -> list[Problem]:
    """What is wrong with a book that meets the schema, in the order of its rows."""
    found = [*_editions(data), *_ids(data), *_pages(data)]
    if found:
        return found
    numbers = {row["id"]: number for number, row in enumerate(data["rows"])}
    reported: dict[Problem, None] = {}
    for edition in data.get("editions", {}) or (None,):
        for system in _SYSTEMS:
            for limit in from_data(data, edition, system).limits:
                row = numbers[limit.id]
                reported.update(dict.fromkeys(_limit(limit, data["rows"][row], row, system)))
    for number, row in enumerate(data["rows"]):
        for fault in faults(row):
            problem = Problem(f"row {row['id']}", fault.message, ("rows", number, *fault.steps))
            reported.setdefault(problem)
    return sorted(reported, key=lambda problem: (problem.steps[1], str(problem)))


def _ids(data: Any) -> Iterator[Problem]:
    by_id: dict[str, Any] = {}
    for number, row in enumerate(data["rows"]):
        if row["id"] in by_id:
            yield Problem(f"row {row['id']}", "the id is given twice", ("rows", number, "id"))
        by_id.setdefault(row["id"], row)
    for number, row in enumerate(data["rows"]):
        for place, other in enumerate(row.get("replaces", ())):
            steps = ("rows", number, "replaces", place)
            if other not in by_id:
                message = f"replaces {other!r}, which is not there"
                yield Problem(f"row {row['id']}", message, steps)
            elif by_id[other]["quantity"] != row["quantity"]:
                message = f"replaces {other!r}, which limits something else"
                yield Problem(f"row {row['id']}", message, steps)


def _pages(data: Any) -> Iterator[Problem]:
    """Rows that do not say on which page they were seen, or that say so and were not."""
    pages = data.get("seen", {})
    for number, row in enumerate(data["rows"]):
        place, steps = f"row {row['id']}", ("rows", number)
        named = row.get("seen", ())
        for name in (named,) if isinstance(named, str) else named:
            if name not in pages:
                known = _near(name, pages) or f"; there are: {', '.join(pages) or 'none'}"
                message = f"seen: the book has no page {name!r}{known}"
                yield Problem(place, message, (*steps, "seen"))
        if not is_seen(row):
            if named:
                message = "seen, but its basis says that it was not: published, or no page"
                yield Problem(place, message, (*steps, "seen"))
        elif not pages:
            message = "on which page it was seen is not said: name it under `seen:` at the head"
            yield Problem(place, message, (*steps, "basis"))
        elif not named and len(pages) > 1:
            message = f"on which page it was seen is not said: seen: {', '.join(pages)}"
            yield Problem(place, message, (*steps, "basis"))


def _editions(data: Any) -> Iterator[Problem]:
    """Editions named that the book does not have."""
    known = data.get("editions", {})
    named: list[tuple[str, Iterable[str], tuple[str | int, ...]]] = [
        (f"row {row['id']}", row.get("editions", ()), ("rows", number, "editions"))
        for number, row in enumerate(data["rows"])
    ]
    named += [
        (f"edition {name}", edition.get("alike", ()), ("editions", name, "alike"))
        for name, edition in known.items()
    ]
    for place, editions, steps in named:
        for number, edition in enumerate(editions):
            if edition not in known:
                yield Problem(place, f"there is no edition {edition!r}", (*steps, number))
    if "alike" not in data and any(edition.get("alike") for edition in known.values()):
        message = "how well it is known that editions are alike is not said"
        yield Problem("alike", message, ("editions",))


def _limit(limit: Limit, row: Any, number: int, system: System) -> Iterator[Problem]:
    place = f"row {limit.id}"
    steps = ("rows", number)
    limited = LIMITED.get(limit.quantity)
    if limited is None:
        yield Problem(
            place, f"there is no quantity {limit.quantity!r}{_of_its_words(limit.quantity)}",
            (*steps, "quantity"),
        )  # fmt: skip
        return
    yield from _words(limit, place, (*steps, "for"))
    given = [part for part in limit.parts() if part in _DIRECTIONS]
    if isinstance(limited.kind, Text):
        if given or limit.status not in limited.kind.words:
            message = f"{limit.quantity} is one of {', '.join(limited.kind.words)}"
            yield Problem(place, message, (*steps, "status"))
        if given:
            return
    for part in given if not isinstance(limited.kind, Text) else ():
        if part not in limited.directions:
            message = f"{limit.quantity} has no {part} value"
            yield Problem(place, message, _steps(steps, row, part, system))
    if not given and not isinstance(limited.kind, Text):
        yield Problem(place, f"{limit.quantity} needs a value", steps)
    if limit.quantity == OPTION and limit.option is None:
        yield Problem(place, f"which option? There are {', '.join(TAKEN)}", steps)
    if limit.option is not None and limit.option not in TAKEN:
        message = f"no job can make use of {limit.option!r}; there are {', '.join(TAKEN)}"
        yield Problem(place, message, (*steps, "option"))
    for part, error in limit.problems():
        yield Problem(
            f"{place}, {part}", str(error), _steps(steps, row, part, system), error.start, error.end
        )


def _words(limit: Limit, place: str, steps: tuple[str | int, ...]) -> Iterator[Problem]:
    for name, words in limit.where.items():
        kind = FACTS[name].kind if name in FACTS else None
        if not isinstance(kind, Text):
            if kind is not None:
                message = f"{name} is an amount, not a word: put the condition into when"
            else:
                near = _near(name, [fact for fact in FACTS if isinstance(FACTS[fact].kind, Text)])
                message = f"{name!r} is not a fact that is a word{near or _NO_SUCH_FACT}"
            yield Problem(f"{place}, for", message, (*steps, name))
        elif kind.words:
            for number, word in enumerate(words):
                if word not in kind.words:
                    near = _near(word, kind.words) or f"; it can be {', '.join(kind.words)}"
                    message = f"{name} is never {word!r}{near}"
                    yield Problem(f"{place}, for", message, (*steps, name, number))


def _steps(
    steps: tuple[str | int, ...], row: Any, part: str, system: System
) -> tuple[str | int, ...]:
    """Where the text of a part stands."""
    key = _WRITTEN.get(part, part)
    ends = key not in row and "between" in row
    steps = (*steps, "between" if ends else key)
    if isinstance(row.get(steps[-1]), dict):
        steps = (*steps, system)
    return (*steps, int(part == "maximum")) if ends else steps


def _of_its_words(quantity: str) -> str:
    """The quantities that have a word in common with one that is not there, or the nearest one."""
    from difflib import get_close_matches

    if get_close_matches(quantity, list(LIMITED), n=1, cutoff=0.85):
        return _near(quantity, LIMITED)
    words = set(quantity.replace("-", " ").split())
    alike = [name for name in LIMITED if words & set(name.replace("-", " ").split())]
    if len(alike) > 1:
        return f"; there are {', '.join(alike)}"
    return _near(quantity, LIMITED)


def _near(word: str, known: Iterable[str]) -> str:
    from difflib import get_close_matches

    near = get_close_matches(word, list(known), n=1)
    return f"; did you mean {near[0]}?" if near else ""
