"""The lines of a procedure that demand, forbid, allow or prefer an entry of a job."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from hts.language.vocabulary.declare import Entry, clause, value
from hts.language.vocabulary.demand_text import DemandText
from hts.language.vocabulary.demanded import Demanded, by_first_word, compared
from hts.language.vocabulary.formulas import ConditionText, FormulaText
from hts.language.vocabulary.types import Choice, Text
from hts.limits.quantities import TAKEN

#: Words that bound a figure.
_BOUNDS = (("at", "least"), ("at", "most"))
#: What a procedure can forbid or allow besides entries: options of a book, and a way of writing
#: that hides the figure.
OPTIONS = (*TAKEN, "widths by multiples of wall")


class DemandLine(Entry):
    """What a procedure wants of an entry of a job, where its condition holds."""

    what: Demanded | None = value(DemandText(), "Entry, and what it has to say")
    when: FormulaText | None = clause("when", ConditionText(), "Condition under which it applies")
    note: str | None = clause("because", Text(), "Why", example='"Two cracks in 2024"')


class Requires(
    DemandLine,
    words="requires",
    example="requires thermocouples attached capacitor discharge energy at most 100 J",
):
    """An entry every job has to have, and what it has to say."""

    what: Demanded | None = value(DemandText(outcomes=True), "Entry, and what it has to say")
    otherwise: Demanded | None = clause(
        "else", DemandText(), "What will do instead", example="bake begins from preheat"
    )


class FigureLimit(Requires, example="recorder interval at most 60 s when p_number = 5A"):
    """A limit on a figure that a job states, in the words of the job: what requires `requires`."""

    plainly = "the limit"

    what: Demanded | None = value(
        DemandText(example="recorder interval at most 60 s"), "Figure of a job, and its bound"
    )

    @classmethod
    def takes_line(cls, items: Sequence[Any]) -> bool:
        words = [getattr(item, "text", "") for item in items]
        return any(
            place.leaf is not None
            and compared(place.leaf) is not None
            and tuple(words[: len(begun)]) == begun
            and (begun[-2:] in _BOUNDS or tuple(words[len(begun) : len(begun) + 2]) in _BOUNDS)
            for begun, place in by_first_word().get(words[0], ())
        )


class Prefers(DemandLine, words="prefers", example="prefers heating insulation layers at least 2"):
    """An entry the owner would like; a job without it gets advice."""


class Forbids(Entry, words="forbids", example="forbids thermocouples attached contact"):
    """An entry no job may have, an option of a book, or a way of stating widths."""

    one_of = ("option", "what")
    option: str | None = value(Choice(*OPTIONS), "Option", optional=True)
    what: Demanded | None = value(DemandText(), "Entry, and what it says", optional=True)
    when: FormulaText | None = clause("when", ConditionText(), "Condition under which it applies")
    note: str | None = clause("because", Text(), "Why", example='"Toughness was not tested"')


class Allows(Forbids, words="allows", example="allows lower-temperature hold when p_number = 1"):
    """An option that the owner allows, or what is free of the lines that forbid."""
