"""Which metals the condition of a line is for."""

from __future__ import annotations

import re

_ON_METAL = re.compile(r"p_number *(=|!=|not in|in) *(\(([^()]*)\)|\w+)")


def metals_of(condition: str, scope: list[str]) -> list[str]:
    """The metals of a scope that a condition is for; none where it does not tell them apart in one
    place, or has an `or`."""
    found = _ON_METAL.findall(condition)
    if len(found) != 1 or re.search(r"\bor\b|\bservice\b", condition):
        return []
    relation, word, listed = found[0]
    named = re.findall(r"\w+", listed or word)
    inside = relation in ("=", "in") and not re.search(r"\bnot\b *\(? *p_number", condition)
    return [metal for metal in scope if (metal in named) == inside]
