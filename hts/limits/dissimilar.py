"""Which side of a weld of two steels is the more highly alloyed."""

from __future__ import annotations

from collections.abc import Mapping

from hts.syntax.formula import Fact

#: P-numbers of ferritic steels whose ranges of post-weld heat treatment follow each other, by rank.
#: Quenched and tempered (11A), 12 % chromium (6, 7) and other steels are left out on purpose: the
#: range of the other side can ruin them, so that a conflict of the two stays one.
_RANKS = {"1": 0, "3": 0, "9A": 0, "9B": 0, "4": 1, "5A": 2, "5B": 2, "5C": 2, "15E": 3}


def ranked(sides: Mapping[str, Mapping[str, Fact]]) -> dict[str, dict[str, Fact]]:
    """The facts of each side, with `more_alloyed` and `dissimilar` where they do not say these.

    "yes" for all sides where they are alike or cannot be ranked; left out where the P-number of one
    of several sides is unknown.
    """
    words = _words(sides)
    numbers = {facts.get("p_number") for facts in sides.values()}
    apart = {} if None in numbers else {"dissimilar": "yes" if len(numbers) > 1 else "no"}
    return {
        name: {**({"more_alloyed": words[name]} if name in words else {}), **apart, **facts}
        for name, facts in sides.items()
    }


def _words(sides: Mapping[str, Mapping[str, Fact]]) -> dict[str, str]:
    numbers = {name: facts.get("p_number") for name, facts in sides.items()}
    if len(set(numbers.values())) > 1 and None in numbers.values():
        return {}
    ranks = {name: _RANKS.get(str(number)) for name, number in numbers.items()}
    known = [rank for rank in ranks.values() if rank is not None]
    if len(known) < len(ranks):
        return dict.fromkeys(sides, "yes")
    return {name: "yes" if rank == max(known) else "no" for name, rank in ranks.items()}
