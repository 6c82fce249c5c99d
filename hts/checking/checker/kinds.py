"""Every kind of finding there is, for explaining and for waivers."""

from __future__ import annotations

from functools import lru_cache

from hts.base.findings import Kind
from hts.checking.checker import waiver_kinds
from hts.checking.govern import sources
from hts.checking.rules.catalogue import rules
from hts.language.layout import kinds as layout
from hts.language.model import sides
from hts.language.vocabulary import kinds as words
from hts.syntax import kinds as form


@lru_cache(maxsize=1)
def all_kinds() -> tuple[Kind, ...]:
    """All kinds by code."""
    found = [
        *form.KINDS,
        *layout.KINDS,
        *words.KINDS,
        *sides.KINDS,
        *sources.KINDS,
        *waiver_kinds.KINDS,
        *(rule.kind for rule in rules()),
    ]
    return tuple(sorted(found, key=lambda kind: kind.code))
