"""A thing that was added or removed whole: in one line, and as one value."""

from __future__ import annotations

import hashlib

from hts.job.comparison.facts import Fact, SpecNode
from hts.language.vocabulary.declare import BLOCK, ENTRY, FLAG

#: A value longer than this is known by its digest.
_LONGEST = 120
#: No more facts than these are told one by one.
_FEW = 6


def said_whole(node: SpecNode) -> tuple[str, str]:
    """The text and the canonical value of a thing with all below it."""
    facts = list(node.everything())
    value = "; ".join(sorted(f"{label} {fact.canonical}" for label, fact in facts))
    if len(value) > _LONGEST:
        value = f"sha256 {hashlib.sha256(value.encode()).hexdigest()[:32]}"
    return _text(node, facts), value


def _text(node: SpecNode, facts: list[tuple[str, Fact]]) -> str:
    """The first line as it is written, and what or how much there is in the block."""
    parts = [] if node.path == "joint.side" else [*type(node.entry).words]
    if node.path == "joint":
        parts.append(node.key)
    inner = []
    for label, fact in facts:
        field = type(node.entry).fields.get(fact.field) if label in node.facts else None
        if field is None or field.form in (ENTRY, BLOCK):
            inner.append(f"{label} {fact.text}")
        else:
            parts += [*field.words] if field.form == FLAG else [*field.words, fact.text]
    if inner:
        words = "; ".join(inner) if len(inner) <= _FEW else f"{len(facts)} facts"
        parts.append(f"{{ {words} }}")
    return " ".join(parts)
