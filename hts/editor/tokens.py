"""What each word is, for editors that colour words by their meaning.

The kinds are those of the Language Server Protocol, so that every theme has a colour for them.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from hts.editor import phrase
from hts.editor.names import Names, unresolved
from hts.editor.place import Text

KEYWORD, PROPERTY, MODIFIER, MEMBER, VARIABLE, NUMBER, TYPE, STRING, COMMENT, OPERATOR, FUNCTION = (
    "keyword",
    "property",
    "modifier",
    "enumMember",
    "variable",
    "number",
    "type",
    "string",
    "comment",
    "operator",
    "function",
)
KINDS = (
    KEYWORD,
    PROPERTY,
    MODIFIER,
    MEMBER,
    VARIABLE,
    NUMBER,
    TYPE,
    STRING,
    COMMENT,
    OPERATOR,
    FUNCTION,
)
#: A name that is declared, and one that leads nowhere.
DECLARATION, UNRESOLVED = "declaration", "unresolved"
MODIFIERS = (DECLARATION, UNRESOLVED)

_OF_ROLE = {
    phrase.WORDS: KEYWORD,
    phrase.CLAUSE: PROPERTY,
    phrase.FLAG_WORDS: MODIFIER,
    phrase.CHOICE: MEMBER,
    phrase.NAME: VARIABLE,
    phrase.REFERENCE: VARIABLE,
    phrase.FACT: FUNCTION,
    phrase.NUMBER: NUMBER,
    phrase.CLOCK: NUMBER,
    phrase.DATE: NUMBER,
    phrase.TEXT: STRING,
    phrase.BY_RULE: KEYWORD,
    phrase.SIGN: OPERATOR,
}
_FIGURE_OR_UNIT = re.compile(r"(?P<figure>-?\d[\d./]*)|(?P<unit>[^\s\d][^\s]*)")
_COMMENT = re.compile(r'"(?:[^"\\\n\r]|\\.)*"?|(?P<comment>#[^\n\r]*)')


class Token(NamedTuple):
    """A stretch of one line, and what it is."""

    start: int
    end: int
    kind: str
    modifiers: tuple[str, ...] = ()


def tokens(text: Text, names: Names | None = None) -> list[Token]:
    """Every word and comment in order; with ``names``, those that lead nowhere are marked."""
    lost = {(s.start, s.end) for s in unresolved(names)} if names is not None else set()
    found: list[Token] = []
    for place in text.places():
        start, end = place.span.start, place.span.end
        if place.role == phrase.QUANTITY:
            found += [
                Token(start + part.start(), start + part.end(), NUMBER if part["figure"] else TYPE)
                for part in _FIGURE_OR_UNIT.finditer(place.word)
            ]
            continue
        kind = _OF_ROLE.get(place.role)
        if kind is None:
            continue
        modifiers: tuple[str, ...] = (DECLARATION,) if place.role == phrase.NAME else ()
        if (start, end) in lost:
            modifiers = (UNRESOLVED,)
        found.append(Token(start, end, kind, modifiers))
    for comment in _COMMENT.finditer(text.source.text):
        if comment["comment"]:
            found.append(Token(comment.start(), comment.end(), COMMENT))
    return sorted(found)
