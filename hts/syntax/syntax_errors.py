"""What can be wrong with the form of a text."""

from hts.base.findings import ERROR, Finding, Kind, Label, Report
from hts.base.text import Source

UNREADABLE_CHARACTER = Kind(
    "S101",
    "unreadable-character",
    ERROR,
    "A character that no value, name or sign of the language begins with.",
    "What cannot be read is not checked, and an unchecked value must not reach the pipe.",
    "Remove the character, or put the text in double quotes.",
    ERROR,
)
UNFINISHED_TEXT = Kind(
    "S102",
    "unfinished-text",
    ERROR,
    "Text in double quotes that does not end on its line.",
    "The rest of the line would silently become part of the text.",
    'Close the text with a double quote; inside it write \\" for a quote.',
    ERROR,
)
DECIMAL_COMMA = Kind(
    "S103",
    "decimal-comma",
    ERROR,
    "A comma between digits.",
    "25,4 can be read as 25.4 or as the two numbers 25 and 4.",
    "Write a decimal point, or a blank after the comma of a list.",
    ERROR,
)
MISSING_OPENING_BRACE = Kind(
    "S104",
    "missing-opening-brace",
    ERROR,
    "A block that is closed but was never opened.",
    "Without the brace the entries belong to something other than what they seem to.",
    "Put { at the end of the line that begins the block.",
    ERROR,
)
UNCLOSED_BLOCK = Kind(
    "S105",
    "unclosed-block",
    ERROR,
    "A block without its closing brace.",
    "Everything that follows would belong to this block.",
    "Put } on a line of its own where the block ends.",
    ERROR,
)
STRAY_CLOSING_BRACE = Kind(
    "S106",
    "stray-closing-brace",
    ERROR,
    "A closing brace with no block to close.",
    "A block was probably closed too early, so entries stand in the wrong place.",
    "Remove the brace, or find the block that was closed too early.",
    ERROR,
)
BRACE_ON_OWN_LINE = Kind(
    "S107",
    "brace-on-own-line",
    ERROR,
    "An opening brace on the line after its entry.",
    "The end of the line ends the entry, so the block would belong to nothing.",
    "Move { to the end of the line before.",
    ERROR,
)
MISSING_LINE_BREAK = Kind(
    "S108",
    "missing-line-break",
    ERROR,
    "Two entries on one line.",
    "Each entry has a line of its own, so that a change of one shows as one line.",
    "Begin a new line.",
    ERROR,
)
UNEXPECTED_SIGN = Kind(
    "S109",
    "unexpected-sign",
    ERROR,
    "A sign where the language has no use for it.",
    "A value that is only half readable could be taken for another.",
    "Remove the sign, or write the missing part of the value.",
    ERROR,
)
TOO_DEEP = Kind(
    "S110",
    "blocks-too-deep",
    ERROR,
    "Blocks nested deeper than any entry of the language.",
    "No entry needs it; a brace is likely to be missing.",
    "Close the blocks that should have ended.",
    ERROR,
)
UNRESOLVED_MERGE = Kind(
    "S112",
    "unresolved-merge",
    ERROR,
    "Conflict marks of a merge that nobody has resolved.",
    "The text says two things at once, and which of them holds is not for a program to decide.",
    "Keep the lines that hold, and remove the others and the conflict marks.",
    ERROR,
)
TOO_MUCH = Kind(
    "S113",
    "too-much-unreadable",
    ERROR,
    "More places that cannot be read than anybody mends one by one.",
    "It is likely to be no specification, or damaged; what stands below is not told.",
    "Mend what is told first, or look whether it is the right file.",
    ERROR,
)
TOO_LONG = Kind(
    "S114",
    "entry-too-long",
    ERROR,
    "An entry of more words and values than any entry of the language has.",
    "A line end, a bracket or a quote is likely to be missing.",
    "Begin a new line where the next entry begins.",
    ERROR,
)

KINDS = (
    UNREADABLE_CHARACTER,
    UNFINISHED_TEXT,
    DECIMAL_COMMA,
    MISSING_OPENING_BRACE,
    UNCLOSED_BLOCK,
    STRAY_CLOSING_BRACE,
    BRACE_ON_OWN_LINE,
    MISSING_LINE_BREAK,
    UNEXPECTED_SIGN,
    TOO_DEEP,
    TOO_MUCH,
    TOO_LONG,
    UNRESOLVED_MERGE,
)

#: Words and values of one entry.
MOST_ITEMS = 1_000
#: Places of a text that are told one by one where it cannot be read.
MOST_TOLD = 1_000


def enough_told(report: Report, source: Source, start: int, end: int) -> bool:
    """Whether so much of a text could not be read that no more of it is told; says so once."""
    if len(report.findings) < MOST_TOLD:
        return False
    if not report.cut:
        report.cut = True
        report.add(
            Finding(
                TOO_MUCH,
                f"more than {MOST_TOLD:,} places cannot be read; what follows is not told",
                Label(source.span(start, end)),
                help="mend what is told first, or look whether it is the right file",
            )
        )
    return True
