"""The language reference, looked up by entry or by the words of a clause."""

from __future__ import annotations

import re
from typing import NamedTuple

_HEADING = re.compile(r"^(##|###) (.+)$", re.M)
_LINK = re.compile(r"\[([^\]]*)\]\(#[^)]*\)")
_FIRST_CELL = re.compile(r"^\| (?:\[([^\]]+)\]\(#[^)]*\)|`([^`]+)`) \|", re.M)
_FENCE = re.compile(r"^```\w*\n", re.M)


class Section(NamedTuple):
    """A part of the reference: its title and its text; an entry of the language or a chapter."""

    title: str
    text: str
    is_entry: bool

    @property
    def meaning(self) -> str:
        """The first paragraph, in one line."""
        return " ".join(plain(self.text).strip().split("\n\n")[0].split())

    @property
    def words(self) -> list[str]:
        """The words of the clauses and entries it lists."""
        return [link or word for link, word in _FIRST_CELL.findall(self.text)]


def sections(page: str) -> list[Section]:
    """The parts of the reference, in their order."""
    found = list(_HEADING.finditer(page))
    ends = [*(each.start() for each in found[1:]), len(page)]
    return [
        Section(each[2].strip(), page[each.end() : end].strip("\n"), each[1] == "###")
        for each, end in zip(found, ends, strict=True)
    ]


def look_up(known: list[Section], wanted: str) -> tuple[list[Section], list[str]]:
    """The parts of that title; failing that none, and the titles of those that list the words."""
    asked = " ".join(wanted.replace("`", "").lower().split())
    titled = [each for each in known if each.title.replace("`", "").lower() == asked]
    if titled:
        return titled, []
    listing = [each.title for each in known if asked in (w.lower() for w in each.words)]
    return [], listing


def row(section: Section, wanted: str) -> str:
    """The line of a part that explains a word it lists."""
    asked = wanted.lower()
    for line in section.text.split("\n"):
        found = _FIRST_CELL.match(line)
        if found is not None and (found[1] or found[2]).lower() == asked:
            cells = [cell.strip() for cell in plain(line).strip("| ").split(" | ")]
            return "  ".join(cell for cell in cells if cell)
    return ""


def plain(text: str) -> str:
    """The text without links and fences, which say nothing at a terminal."""
    text = _FENCE.sub("", text)
    return _LINK.sub(r"\1", text)
