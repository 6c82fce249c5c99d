"""What can go wrong in laying out a text."""

from hts.base.findings import ERROR, Kind

LAYOUT_GUARD = Kind(
    "F101",
    "layout-guard",
    ERROR,
    "A text that would not read the same after it is laid out.",
    "A layout must never change what a specification says, so the file was left as it is.",
    "Report the text: the fault lies in the program. Until then write the entry in another way.",
    ERROR,
)

KINDS = (LAYOUT_GUARD,)
