"""One limit as a book or a procedure states it, and where it comes from."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple

from hts.base.quantities import LENGTH, TEMPERATURE
from hts.base.text import Span
from hts.limits.facts import FACT_KINDS
from hts.limits.quantities import LIMITED
from hts.syntax.formula import CONDITION, Formula, FormulaError, Kind

_PARTS = ("minimum", "maximum", "exactly", "above", "within", "when")
_PLACES = ("above", "within", "when")


class Source(NamedTuple):
    """Where a limit comes from and how well it is known.

    `name` is the id of a book or the name of a procedure. `basis` is published, memory, practice
    or derived; `confidence` high, medium or low. `seen`: the pages of the book, by their names.
    """

    name: str
    edition: str = ""
    citation: str = ""
    basis: str = ""
    confidence: str = ""
    note: str = ""
    cautions: tuple[str, ...] = ()
    at: Span | None = None
    seen: tuple[str, ...] = ()


class Limit:
    """A limit on one quantity (a name of LIMITED), applying where its conditions hold.

    The bounds are texts of formulas, parsed when first needed: a joint meets few of a book's
    rows. `above` is the temperature from which a rate is limited, `within` the distance over
    which a spread is. `where` lists, for facts that are words, the words it is for. `status` is
    the word of a quantity that is a choice, such as required. A limit with an `option` applies
    only where that option is taken; `replaces` names limits it stands in for: `id` of the same
    source, or `book/id`, or `procedure/*quantity` for all its rows on it. A `silent` one counts
    only where no other source has a bound on the same side in the same direction. `positions` are
    clock positions that go with a number of thermocouples.
    `dissimilar` says by which rule of the book the limit is for one side alone where two ferritic
    steels are joined. `system` is the system of units the figures are printed in where the source
    prints them in both, "" elsewhere; `pair` makes the same limit as printed in the other.
    """

    __slots__ = (
        "_made",
        "_make_pair",
        "_texts",
        "dissimilar",
        "id",
        "option",
        "positions",
        "quantity",
        "replaces",
        "silent",
        "source",
        "status",
        "system",
        "where",
    )

    def __init__(
        self,
        quantity: str,
        source: Source,
        *,
        minimum: str | None = None,
        maximum: str | None = None,
        exactly: str | None = None,
        above: str | None = None,
        within: str | None = None,
        when: str | None = None,
        where: Mapping[str, tuple[str, ...]] | None = None,
        status: str | None = None,
        option: str | None = None,
        replaces: tuple[str, ...] = (),
        silent: bool = False,
        positions: tuple[str, ...] = (),
        dissimilar: str = "",
        id: str = "",
        system: str = "",
        pair: Callable[[], Limit] | None = None,
    ) -> None:
        self.quantity = quantity
        self.source = source
        self._texts = (minimum, maximum, exactly, above, within, when)
        self.where = where or {}
        self.status = status
        self.option = option
        self.replaces = replaces
        self.silent = silent
        self.positions = positions
        self.dissimilar = dissimilar
        self.system = system
        self._make_pair = pair
        self._made: Limit | None = None
        self.id = id

    @property
    def pair(self) -> Limit | None:
        """The same limit as printed in the other system of units; None where there is one print."""
        if self._made is None and self._make_pair is not None:
            self._made = self._make_pair()
        return self._made

    @property
    def texts(self) -> Iterator[str]:
        """The formulas of all its parts, unread."""
        return (text for text in self._texts if text is not None)

    def names(self, parts: Iterable[str]) -> Iterator[str]:
        """The facts that the formulas of these parts use."""
        for part in self.parts():
            if part in parts:
                yield from getattr(self, part).names

    @property
    def minimum(self) -> Formula | None:
        return self._formula(0)

    @property
    def maximum(self) -> Formula | None:
        return self._formula(1)

    @property
    def exactly(self) -> Formula | None:
        return self._formula(2)

    @property
    def above(self) -> Formula | None:
        return self._formula(3, TEMPERATURE)

    @property
    def within(self) -> Formula | None:
        return self._formula(4, LENGTH)

    @property
    def when(self) -> Formula | None:
        return self._formula(5, CONDITION)

    def _formula(self, index: int, wants: Kind | None = None) -> Formula | None:
        text = self._texts[index]
        if text is None:
            return None
        return Formula.parse(text, wants or LIMITED[self.quantity].kind)

    def problems(self) -> list[tuple[str, FormulaError]]:
        """What does not fit, by the part it is in: empty for a sound limit."""
        found = []
        for part in self.parts():
            try:
                formula: Formula = getattr(self, part)
                formula.check(FACT_KINDS, part if part in _PLACES else self.quantity)
            except FormulaError as error:
                found.append((part, error))
        return found

    def parts(self) -> list[str]:
        """The parts that have a formula: minimum, when and so on."""
        return [part for part, text in zip(_PARTS, self._texts, strict=True) if text is not None]

    def __repr__(self) -> str:
        return f"<Limit {self.source.name} {self.id or self.quantity}>"
