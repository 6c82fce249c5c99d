"""What the head of a column says that its cells are, where it says so surely."""

from __future__ import annotations

import re
from typing import NamedTuple

from hts.language.vocabulary.column import Lead


class Meaning(NamedTuple):
    """What a head means in plain words, and the fields that take it by name."""

    name: str
    fields: frozenset[str]


WALL = "the wall"
#: Words of heads of weld lists, what they mean and what takes it by its name in the
#: vocabulary: common practice, no source.
_WORDS = (
    (WALL, "wt wall walls thk thick thickness", "wall governing_thickness"),
    ("the size in NPS", "nps", "nps"),
    ("the size in DN", "dn", "dn"),
    ("the outside diameter", "od", "outside_diameter"),
    ("the size", "size sizes bore nb dia diameter", "nps dn outside_diameter"),
    ("the schedule", "sch sched schedule", "schedule"),
    ("the line", "line", "line"),
    ("the drawing", "iso isometric drawing dwg", "drawing"),
    ("the spool", "spool", "spool"),
    ("the service", "service fluid medium", "service"),
    ("the width of the cap", "cap", "cap_width"),
    ("where the weld is made", "made shop field", "made"),
)
#: What stands beside such a word and changes nothing.
_BESIDE = frozenset(
    word
    for words in (
        "no nos nr number num id ref name of the in a b or and side outside width",
        "pipe nom nominal act actual meas measured min minimum mm inch inches",
        "upstream downstream run branch",
    )
    for word in words.split()
)
_MEANINGS = {
    word: Meaning(name, frozenset(fields.split()))
    for name, words, fields in _WORDS
    for word in words.split()
}
_BRACKETS = re.compile(r"\[[^\]]*\]|\([^)]*\)")


def meaning(head: str) -> Meaning | None:
    """What a head means; None where it says nothing known, something besides, or two things."""
    words = re.findall(r"[a-z]+", _BRACKETS.sub(" ", head.replace(".", "")).casefold())
    if any(word not in _MEANINGS and word not in _BESIDE for word in words):
        return None
    found = {_MEANINGS[word] for word in words if word in _MEANINGS}
    narrowest = min(found, key=lambda each: (len(each.fields), each.name), default=None)
    sure = narrowest is not None and all(narrowest.fields <= each.fields for each in found)
    return narrowest if sure else None


def leads_there(lead: Lead, meant: Meaning) -> bool:
    """Whether a column that leads so takes what its head means."""
    return bool(meant.fields & {lead.field.name, *(field.name for field in lead.path)})
