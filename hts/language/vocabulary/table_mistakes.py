"""What can be wrong with a weld list: its table, its heads and its cells."""

from __future__ import annotations

from hts.base.findings import ERROR, WARNING, Kind

BROKEN_TABLE = Kind(
    "W117",
    "broken-table",
    ERROR,
    "A table whose rows and columns cannot be told apart for certain.",
    "A cell read in the wrong column is a wrong wall or a wrong weld.",
    "Save the table again from the spreadsheet as CSV, encoded as UTF-8.",
    ERROR,
)
UNMATCHED_COLUMN = Kind(
    "W118",
    "unmatched-column",
    ERROR,
    "A column that the table has and the list does not name, or the other way round.",
    "What stands in a column nobody reads is taken for a requirement and is none.",
    "Name every column as its head is written: with the entry it leads to, or `not used`.",
    ERROR,
)
ROW_COUNT = Kind(
    "W119",
    "other-row-count",
    ERROR,
    "A table that does not have as many rows as the list states.",
    "A file that was cut off, or a row that came in unseen, is a weld left out or one too many.",
    "Find out which rows came or went, then correct the number.",
    ERROR,
)
UNCLEAR_CELL = Kind(
    "W120",
    "unclear-cell",
    ERROR,
    "A cell that says nothing for certain: a placeholder, a formula, two units, a line break.",
    "What is not stated will be guessed at the pipe.",
    "Correct the cell in the table, or name what stands for a blank cell with `blank`.",
    ERROR,
)
BLANK_CELL = Kind(
    "W121",
    "blank-cell",
    ERROR,
    "A blank cell in a column whose cells are needed.",
    "The typical joint's value would stand in its place, and nobody measured that here.",
    "Fill in the cell.",
    ERROR,
)

UNTREATED = Kind(
    "W122",
    "list-weld-untreated",
    WARNING,
    "A weld of a list that is in no cycle and no bake, where others of the list are.",
    "The row is there and nobody heats it: its typical joint was forgotten where joints are named.",
    "Name it in a cycle, or take its row out with `only`.",
)
NO_WELD = Kind(
    "W123",
    "row-without-weld",
    ERROR,
    "A row of a table that is not a weld: heads said again, a total, a note.",
    "Read as a weld it has the values of the typical joint, and looks like one to be heated.",
    "Take it out of the table.",
    ERROR,
)
LEADS_ELSEWHERE = Kind(
    "W124",
    "column-leads-elsewhere",
    WARNING,
    "A column whose head says that its cells are one thing, and that leads to another; or one of "
    "walls that nobody reads.",
    "Every weld of the list then has the wall or the size of its typical, and looks measured.",
    "Lead the column to what its head says, or correct the head in table and list.",
)
LEFT_OUT_ALIKE = Kind(
    "W126",
    "row-left-out-alike",
    WARNING,
    "A row of a weld list that does not count, where one of its typical and no thicker does.",
    "What asks for the treatment of the one asks for that of the other: nobody heats it.",
    "Let the row count, or say in a column that is `not used` why it does not, in words that stand "
    "at no row that counts.",
)
NUMBER_LEFT_OUT = Kind(
    "W127",
    "weld-number-left-out",
    WARNING,
    "A weld list of fifty welds or more, numbered one after the other but for one or two numbers.",
    "A row was deleted or its number mistyped, and the count of rows put right to match: "
    "that weld is treated by nobody.",
    "Put the row back; one that is not treated stays in the table, and `only` leaves it out.",
)

KINDS = (
    BROKEN_TABLE,
    UNMATCHED_COLUMN,
    ROW_COUNT,
    UNCLEAR_CELL,
    BLANK_CELL,
    UNTREATED,
    NO_WELD,
    LEADS_ELSEWHERE,
    LEFT_OUT_ALIKE,
    NUMBER_LEFT_OUT,
)
