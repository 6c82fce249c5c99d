"""Every kind of finding there is, for explaining and for waivers."""

from __future__ import annotations

from functools import lru_cache

from hts.base.findings import Kind
from hts.checking.checker import waiver_kinds
from hts.checking.govern import sources
from hts.checking.rules.catalogue import rules
from hts.language.layout import layout_errors
from hts.language.model import sides
from hts.language.vocabulary import mistakes, table_mistakes
from hts.syntax import syntax_errors


def of_reading(kind: Kind) -> bool:
    """Whether a kind tells of what could not be read, so that rules say nothing of it."""
    return kind in {
        *syntax_errors.KINDS,
        *mistakes.KINDS,
        *table_mistakes.KINDS,
        *sides.KINDS,
        *sources.KINDS,
    }


@lru_cache(maxsize=1)
def all_kinds() -> tuple[Kind, ...]:
    """All kinds by code."""
    found = [
        *syntax_errors.KINDS,
        *layout_errors.KINDS,
        *mistakes.KINDS,
        *table_mistakes.KINDS,
        *sides.KINDS,
        *sources.KINDS,
        *waiver_kinds.KINDS,
        *(rule.kind for rule in rules()),
    ]
    return tuple(sorted(found, key=lambda kind: kind.code))
