"""What plain sentences of a job say: clause by clause, denied or not, and of a neighbour or of itself.

A sentence is only held against an entry where it says plainly what it says: what these cannot tell is
left alone.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from hts.language.vocabulary.joint import Support

#: Numbers as sentences write them, from one up.
NUMBERS = (
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)
_PARTS = re.compile(r"[,;:.](?!\d)|(?<!\d)[()]|\s(?:but|while|whereas|where|which|that)\s")
_DENIED = re.compile(
    r"\b(?:not|no|never|nothing|nobody|nowhere|none|neither|nor|without|cannot|n't)\b|n't\b",
    re.IGNORECASE,
)
_NEIGHBOUR = re.compile(
    r"\b(?:beside|besides|near|nearby|next|neighbou?r\w*|adjacent|adjoining|alongside|opposite|crossing|crosses"
    r"|parallel|above it|below it|behind|between|after|before|following|unlike|like|instead)\b",
    re.IGNORECASE,
)


#: Words that make a neighbour of what stands before them: a line crossing it.
_ITSELF_A_NEIGHBOUR = re.compile(
    r"\b(?:crossing|crosses|adjacent|adjoining|opposite|(?:beside|near|next to|alongside|above|below|behind) it)\b",
    re.IGNORECASE,
)


def clauses(text: str) -> list[str]:
    """The parts of a text between commas, colons, full stops and words that join sentences."""
    return [part.strip() for part in _PARTS.split(text) if part.strip()]


def denied(words: str) -> bool:
    """Whether something is denied: no longer, nothing, nowhere, without."""
    return _DENIED.search(words) is not None


def of_a_neighbour(clause: str) -> bool:
    """Whether a clause speaks of something beside, after or unlike the work itself."""
    return _NEIGHBOUR.search(clause) is not None


def of_itself(text: str) -> str:
    """A title without what stands beside, near or after the thing it names."""
    kept = []
    for clause in clauses(text):
        if _ITSELF_A_NEIGHBOUR.search(clause):
            continue
        found = _NEIGHBOUR.search(clause)
        kept.append(clause if found is None else clause[: found.start()])
    return ", ".join(kept)


def named_supports(supports: Sequence[Support], words: str) -> list[Support]:
    """The supports that words name: by the last word of each, and by more of it where several share that."""
    said = {word.rstrip("s") for word in re.findall(r"[a-z]+", words.lower())}
    named: list[tuple[int, Support]] = []
    for support in supports:
        own = [word.rstrip("s") for word in re.findall(r"[a-z]+", support.what.lower())]
        if own and own[-1] in said:
            named.append((len(said & set(own)), support))
    most = max((count for count, _ in named), default=0)
    return [support for count, support in named if count == most]
