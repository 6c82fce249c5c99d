"""The formulas and conditions of a procedure, line by line."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hts.base.text import Span
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.limit_lines import LimitLine
from hts.language.vocabulary.paths import title
from hts.language.vocabulary.procedure import Procedure
from hts.syntax.formula import CONDITION, Formula

#: The parts of a limit that are formulas.
BOUNDS = ("minimum", "maximum", "exactly", "above", "within")
_DEMANDING = (
    "treatments", "forbids", "allows", "requires", "prefers",
)  # fmt: skip


class Written(NamedTuple):
    """A formula or condition of a line: ``when`` is the line's condition, "" for none."""

    line: Entry
    part: str
    formula: FormulaText
    when: str

    @property
    def names(self) -> tuple[str, ...]:
        return Formula.parse(self.formula.text).names

    @property
    def compared(self) -> list[str]:
        """The facts that a condition compares alone with a figure."""
        return [fact for fact, _ in Formula.parse(self.formula.text, CONDITION).compared if fact]

    @property
    def about(self) -> str:
        """What the line is about: the quantity it limits, else its first words."""
        if isinstance(self.line, LimitLine):
            return f"the limit on {self.line.quantity}"
        return f"`{' '.join(self.line.words) or title(type(self.line))}`"

    @property
    def place(self) -> Span:
        source = self.line.place().source
        return source.span(self.formula.start, self.formula.end)

    def asks_whether_known(self, fact: str) -> bool:
        """Whether the condition of the line first asks whether there is such a fact."""
        return f"{fact} is known" in " ".join(self.when.split())


def written(procedure: Procedure) -> Iterator[Written]:
    """All of them, each limit first."""
    for line in procedure.limits:
        when = line.when.text if line.when is not None else ""
        for part in (*BOUNDS, "when"):
            formula = getattr(line, part)
            if formula is not None:
                yield Written(line, part, formula, when)
    for field in _DEMANDING:
        for other in getattr(procedure, field):
            when = other.when.text if other.when is not None else ""
            demanded = getattr(other, "what", None)
            for test in demanded.tests if demanded is not None else ():
                for formula in test.formulas:
                    yield Written(other, "what", formula, when)
            if other.when is not None:
                yield Written(other, "when", other.when, when)
