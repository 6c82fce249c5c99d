"""Welding processes, named in a text."""

from __future__ import annotations

import re

from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.types.words import Text
from hts.science.tables.welding_processes import PROCESSES, processes

_CAPITALS = re.compile(r"(?<![\w.-])[A-Z]{3,5}(?![\w.-])")


class Processes(Text):
    """Text in double quotes that names one welding process or several."""

    words = "a text that names welding processes"
    example = '"GTAW root, SMAW fill"'

    def read(self, cursor: Cursor) -> str:
        item = cursor.item
        text = super().read(cursor)
        assert item is not None
        named = processes(text)
        slips = [word for word in _CAPITALS.findall(text) if word not in named]
        near = next(
            ((word, like) for word in slips for like in PROCESSES if _slip(word, like)), None
        )
        if near is not None:
            cause, help = f"there is no welding process {near[0]}", f"did you mean {near[1]}?"
        elif not named:
            cause = f"{text!r} names no welding process"
            help = f"name it by its letters or its number in ISO 4063: {', '.join(PROCESSES)}"
        else:
            return text
        raise Misread(mistakes.UNKNOWN_CHOICE, cause, item.start, item.end, help)


def _slip(word: str, name: str) -> bool:
    """Whether a word is a name with two letters exchanged, or one letter of four wrong."""
    if word == name or len(word) != len(name):
        return False
    wrong = sum(one != other for one, other in zip(word, name, strict=True))
    return sorted(word) == sorted(name) or (wrong == 1 and len(name) >= 4)
