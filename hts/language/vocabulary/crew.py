"""Who watches the heats, and at what hours."""

from __future__ import annotations

from hts.language.vocabulary.declare import Entry, clause, value
from hts.language.vocabulary.types import Count, Name
from hts.language.vocabulary.types.times import TimeOfDay


class Crew(Entry, words="crew", example="crew days from 06:00 to 18:00 watches 3"):
    """A crew that sets up, starts and watches heats, each day in its shift."""

    name: str = value(Name("a name", "days"), "Name or number of the crew")
    begins: str | None = clause("from", TimeOfDay(), "When its shift begins", required=True)
    ends: str | None = clause(
        "to", TimeOfDay(), "When its shift ends, on the next day where that is earlier",
        required=True, example="18:00",
    )  # fmt: skip
    watches: int | None = clause(
        "watches",
        Count(usual="1 .. 12"),
        "Heats it can set up and watch at once",
        required=True,
        stricter="lower",
    )
    people: int | None = clause(
        "people", Count(usual="1 .. 40"), "Persons it has", example="2", stricter="higher"
    )
