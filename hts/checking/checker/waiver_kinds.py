"""Kinds of finding about a waiver itself."""

from __future__ import annotations

from hts.base.findings import ERROR, WARNING, Kind

UNKNOWN_RULE = Kind(
    "V101",
    "waiver-of-unknown-rule",
    ERROR,
    "A waiver of a rule that does not exist.",
    "A waiver that sets nothing aside hides that the finding is still open.",
    "Use the name or code the finding shows.",
    ERROR,
)
UNUSED = Kind(
    "V102",
    "unused-waiver",
    WARNING,
    "A waiver nothing needs.",
    "It would silently cover the next finding at that place.",
    "Remove it.",
)
EXPIRED = Kind(
    "V103",
    "expired-waiver",
    ERROR,
    "A waiver past its last day.",
    "The decision it records has run out.",
    "Have it renewed by the role that decided it, or remove the cause.",
    ERROR,
)
NOT_WAIVABLE = Kind(
    "V104",
    "waiver-of-safety-rule",
    ERROR,
    "A waiver of a rule that may not be set aside.",
    "People can be hurt, or the record would be worthless.",
    "Remove the cause.",
    ERROR,
)
FORBIDS_NOTHING = Kind(
    "V105",
    "forbidden-waiver-of-unknown-rule",
    ERROR,
    "A procedure that forbids to waive a rule that does not exist.",
    "What the owner wanted kept can be waived all the same, and nobody is told.",
    "Use the name or code the finding shows.",
    ERROR,
)

KINDS = (UNKNOWN_RULE, UNUSED, EXPIRED, NOT_WAIVABLE, FORBIDS_NOTHING)
