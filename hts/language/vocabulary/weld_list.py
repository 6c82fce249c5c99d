"""A list of welds kept in a spreadsheet: which column says what about each joint."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hts.language.vocabulary.column import Lead, LeadsTo, UnitName
from hts.language.vocabulary.declare import Entry, clause, entry, flag, inner, value
from hts.language.vocabulary.types import Choice, Count, Name, Reference, Text, To

if TYPE_CHECKING:
    from collections.abc import Sequence

    from hts.base.text import Source
    from hts.language.vocabulary.joint import Joint

SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t"}


class WeldNumber(Entry, words="weld", example='weld in "Weld no."'):
    """The column with the name of the joint, each once."""

    column: str | None = clause("in", Text(), "Head of the column", required=True)


class Typical(Entry, words="like", example="like p22-butt"):
    """The joint that every row equals but for what it says itself, or the column that names it."""

    one_of = ("joint", "column")
    joint: Reference | None = value(To("joint"), "The joint, one for all rows", optional=True)
    column: str | None = clause(
        "in", Text(), "Head of the column that names it row by row", example='"Typical"'
    )


class Separator(Entry, words="separator", example="separator semicolon, decimal comma"):
    """What parts the cells of a row, a comma without it; and the sign before decimals."""

    sign: str = value(Choice(*SEPARATORS), "What parts the cells")
    decimal: str | None = clause(
        "decimal", Choice("point", "comma"), "Sign before the decimals, a point without it"
    )


class Only(Entry, words="only", example='only "PWHT" is "yes"'):
    """Which rows count: those whose cell in a column is one of these texts."""

    column: str = value(Text(), "Head of the column")
    texts: list[str] = clause(
        "is", Text(), "What the cell has to be", required=True, many=True, example='"yes"'
    )
    blank_out: bool = flag("blank left out", "A row whose cell is blank does not count")


class Column(Entry, words="column", example='column "WT [mm]" wall measured'):
    """A column, and the entry of the joint that its cells say; or that nobody reads it."""

    head: str = value(Text(), "Head of the column")
    leads_to: Lead | None = value(
        LeadsTo(), "Words of the entry of the joint, without its value", optional=True
    )
    unit: str | None = clause("in", UnitName(), "Unit of cells that have none")
    needed: bool = flag("needed", "No cell may be blank")
    unused: bool = flag("not used", "Nobody reads the column")


class WeldList(Entry, words="weld list", example='weld list line-welds from "weld-list.csv" { … }'):
    """Joints from the rows of a table, one for each weld."""

    name: str = value(Name("the name of a weld list", "line-welds"), "Name of the list")
    path: str | None = clause(
        "from",
        Text(),
        "The table as CSV, its path relative to this file, inside the repository",
        required=True,
        example='"weld-list.csv"',
    )
    weld: WeldNumber | None = inner(WeldNumber, required=True)
    typical: Typical | None = inner(Typical)
    rows: int | None = entry(
        "rows",
        Count("312", usual="1 .. 5000"),
        "Number of rows below the heads, so that a file cut off is seen",
        required=True,
        example="rows 312",
    )
    revision: str | None = entry(
        "revision", Text(), "Revision of the table itself", example='revision "C"'
    )
    separator: Separator | None = inner(Separator)
    only: Only | None = inner(Only)
    columns: list[Column] = inner(Column, many=True)
    blanks: list[str] = entry(
        "blank", Text(), "What counts as a blank cell", many=True, example='blank "-", "n/a"'
    )

    #: The table and the joints made from its rows, once it has been read.
    table: Source | None = None
    joints: Sequence[Joint] = ()
    #: The weld numbers of the rows that `only` leaves out, as they stand there.
    left_out: Sequence[str] = ()
