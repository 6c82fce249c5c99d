"""What can be wrong with the words, names and values of a specification."""

from __future__ import annotations

from hts.base.findings import ERROR, WARNING, Kind

UNKNOWN_ENTRY = Kind(
    "W101",
    "unknown-entry",
    ERROR,
    "A line that begins with a word the language does not know.",
    "An entry nobody reads looks like a requirement and is none.",
    "Use the word the language reference lists for it.",
    ERROR,
)
MISPLACED_ENTRY = Kind(
    "W102",
    "misplaced-entry",
    ERROR,
    "An entry that belongs in another block.",
    "In the wrong block the entry says nothing about the thing it was meant for.",
    "Move it into the block it belongs to.",
    ERROR,
)
MISSING_ENTRY = Kind(
    "W103",
    "missing-entry",
    ERROR,
    "A block that lacks an entry it cannot do without.",
    "What is not stated will be guessed at the pipe.",
    "Add the entry; where a rule can give the value, write `by rule`.",
    ERROR,
)
REPEATED_ENTRY = Kind(
    "W104",
    "repeated-entry",
    ERROR,
    "An entry given twice where one is allowed.",
    "With two values for one thing, which one is used would be chance.",
    "Keep one of them.",
    ERROR,
)
MISSING_VALUE = Kind(
    "W105",
    "missing-value",
    ERROR,
    "An entry or clause without the value it needs.",
    "What is not stated will be guessed at the pipe.",
    "Write the value.",
    ERROR,
)
UNEXPECTED_VALUE = Kind(
    "W106",
    "unexpected-value",
    ERROR,
    "Something after the end of what the entry can say.",
    "Words the checker does not understand may matter to the reader.",
    "Remove it, or write it with the label it needs.",
    ERROR,
)
WRONG_VALUE = Kind(
    "W107",
    "wrong-value",
    ERROR,
    "A value of another kind than the entry takes.",
    "A value of the wrong kind cannot be checked or compiled.",
    "Write a value of the kind the message names.",
    ERROR,
)
UNKNOWN_CHOICE = Kind(
    "W108",
    "unknown-choice",
    ERROR,
    "A word that is not among the choices of the entry.",
    "A choice that nobody knows cannot be followed.",
    "Use one of the listed words.",
    ERROR,
)
MISSING_BLOCK = Kind(
    "W109",
    "missing-block",
    ERROR,
    "An entry that needs a block and has none.",
    "Without the block nothing is said about the thing.",
    "Open a block with { and describe the thing in it.",
    ERROR,
)
UNEXPECTED_BLOCK = Kind(
    "W110",
    "unexpected-block",
    ERROR,
    "A block after an entry that takes none.",
    "What stands in the block would be lost.",
    "Remove the block, or move its entries to where they belong.",
    ERROR,
)
UNKNOWN_NAME = Kind(
    "W111",
    "unknown-name",
    ERROR,
    "A name that nothing in the specification or the files it uses has.",
    "A reference into nothing silently drops what was meant.",
    "Correct the name, or declare what it refers to.",
    ERROR,
)
REPEATED_NAME = Kind(
    "W112",
    "repeated-name",
    ERROR,
    "Two things of one kind with the same name.",
    "On site one name must mean one thing.",
    "Give each its own name.",
    ERROR,
)
NAME_OF_TWO_FILES = Kind(
    "W125",
    "name-of-two-files",
    WARNING,
    "A material, a filler or a procedure with the name of one in a file that is used.",
    "The one of the file at hand counts, and stands in for the other wherever it is named.",
    "Give it a name of its own, or leave it out and use the other.",
)
UNUSABLE_FILE = Kind(
    "W113",
    "unusable-file",
    ERROR,
    "A file named by `use` that cannot be used.",
    "What the file should have said is missing.",
    "Correct the path; it is relative to the file and must stay inside the repository.",
    ERROR,
)
MISSING_UNIT = Kind(
    "Q101",
    "missing-unit",
    ERROR,
    "A number without a unit where a quantity is needed.",
    "700 can be degrees Celsius or Fahrenheit; the difference can scrap the part.",
    "Write the unit after the number.",
    ERROR,
)
UNKNOWN_UNIT = Kind(
    "Q102",
    "unknown-unit",
    ERROR,
    "A unit that is not in the closed set of the language.",
    "A misread unit is a wrong value.",
    "Use one of the units the message lists.",
    ERROR,
)
WRONG_DIMENSION = Kind(
    "Q103",
    "wrong-dimension",
    ERROR,
    "A quantity of another kind than the entry takes.",
    "A length where a temperature belongs shows that the line means something else.",
    "Write a quantity of the kind the message names.",
    ERROR,
)
UNREADABLE_NUMBER = Kind(
    "Q104",
    "unreadable-number",
    ERROR,
    "A number that cannot be read exactly.",
    "A number read wrongly is a wrong value.",
    "Write digits with a decimal point, or a fraction such as 1 1/2.",
    ERROR,
)
REVERSED_RANGE = Kind(
    "Q105",
    "reversed-range",
    ERROR,
    "A range whose first value is the larger one, or that has no width.",
    "Nothing lies in such a range.",
    "Write the smaller value first.",
    ERROR,
)
UNCLEAR_TOLERANCE = Kind(
    "Q106",
    "unclear-tolerance",
    ERROR,
    "A value with a one-sided or unclear tolerance, such as 760 + 10.",
    "It does not say whether values below are allowed.",
    "Write a range A .. B, or A +/- B.",
    ERROR,
)
IMPOSSIBLE_VALUE = Kind(
    "Q109",
    "impossible-value",
    ERROR,
    "A quantity zero or negative where it cannot be, below absolute zero, or more than the whole.",
    "Whatever is worked out from it, a rate or a band, is reversed or vanishes without a word.",
    "Check sign, digits and unit; leave the entry out where there is nothing to state.",
    ERROR,
)
WIDTH_WITHOUT_SIDE = Kind(
    "Q107",
    "width-without-side",
    ERROR,
    "A width that does not say whether it is in total or on each side.",
    "Taken the wrong way a band is half or twice as wide.",
    "Write `total` or `each side` after the width.",
    ERROR,
)
BAD_FORMULA = Kind(
    "Q108",
    "unreadable-formula",
    ERROR,
    "A formula or condition that cannot be read or whose units do not fit.",
    "A limit that cannot be computed limits nothing.",
    "Correct the part the message points at.",
    ERROR,
)
UNKNOWN_VERSION = Kind(
    "W114",
    "unknown-language-version",
    ERROR,
    "A version of the language this program does not know.",
    "Words may mean something else in another version.",
    "Use a program that knows the version, or write `spec 1`.",
    ERROR,
)
NOTHING_LEFT_OUT = Kind(
    "W115",
    "nothing-left-out",
    ERROR,
    "A `without` for something the other joint does not have.",
    "Something else may have been meant, and that is still there.",
    "Name what the other joint says, or leave the entry out.",
)
HIDDEN_CHARACTER = Kind(
    "S111",
    "hidden-character",
    ERROR,
    "Text with control or direction-changing characters.",
    "What is read on the screen may differ from what is stored and printed.",
    "Remove the character.",
)
MISSING_LETTER = Kind(
    "W116",
    "letter-not-printed",
    WARNING,
    "A letter that the fonts of the paper do not have.",
    "On paper its number stands in its place, which nobody at the pipe can read.",
    "Write it in Latin, Greek or Cyrillic letters.",
)

KINDS = (
    UNKNOWN_ENTRY,
    MISPLACED_ENTRY,
    MISSING_ENTRY,
    REPEATED_ENTRY,
    MISSING_VALUE,
    UNEXPECTED_VALUE,
    WRONG_VALUE,
    UNKNOWN_CHOICE,
    MISSING_BLOCK,
    UNEXPECTED_BLOCK,
    UNKNOWN_NAME,
    REPEATED_NAME,
    NAME_OF_TWO_FILES,
    UNUSABLE_FILE,
    UNKNOWN_VERSION,
    NOTHING_LEFT_OUT,
    HIDDEN_CHARACTER,
    MISSING_LETTER,
    MISSING_UNIT,
    UNKNOWN_UNIT,
    WRONG_DIMENSION,
    UNREADABLE_NUMBER,
    REVERSED_RANGE,
    UNCLEAR_TOLERANCE,
    WIDTH_WITHOUT_SIDE,
    IMPOSSIBLE_VALUE,
    BAD_FORMULA,
)
