"""Every kind of finding there is, for explaining and for waivers."""

from __future__ import annotations

from functools import lru_cache

from hts.checker import waivers
from hts.findings import Kind
from hts.govern import sources
from hts.layout import kinds as layout
from hts.model import sides
from hts.rules.catalogue import rules
from hts.syntax import kinds as form
from hts.vocabulary import kinds as words


@lru_cache(maxsize=1)
def all_kinds() -> tuple[Kind, ...]:
    """All kinds by code."""
    found = [
        *form.KINDS,
        *layout.KINDS,
        *words.KINDS,
        *sides.KINDS,
        *sources.KINDS,
        *waivers.KINDS,
        *(rule.kind for rule in rules()),
    ]
    return tuple(sorted(found, key=lambda kind: kind.code))
