"""One thing that can be written at a place, and the surroundings offers are drawn from."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from hts.editor.names import Names
from hts.editor.outline import Line

ENTRY, CLAUSE, FLAG, CHOICE, NAME, UNIT, VALUE, FACT, FILE = (
    "entry",
    "clause",
    "flag",
    "choice",
    "name",
    "unit",
    "value",
    "fact",
    "file",
)


class Offer(NamedTuple):
    """``label`` is shown and ``insert`` written from the beginning of the word at the cursor; a
    ``snippet`` has places to fill in, as `${1:25.4 mm}`. The lower the ``rank`` the earlier it is
    shown."""

    label: str
    insert: str
    kind: str
    detail: str = ""
    about: str = ""
    snippet: str = ""
    rank: int = 5


class Surroundings(NamedTuple):
    """What offers are drawn from besides the vocabulary.

    ``line`` is the entry that is being written. ``today`` is an ISO date, "" where none is wanted.
    ``files`` lists the texts that a `use` can name, ``rules`` the names of all rules with what
    each is about, ``books`` the ids of the repository's own rule books.
    """

    names: Names
    line: Line | None = None
    today: str = ""
    files: Callable[[], list[str]] = list
    rules: Callable[[], list[tuple[str, str]]] = list
    books: Callable[[], list[str]] = list
