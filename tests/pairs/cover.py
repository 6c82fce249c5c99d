"""Rows of choices in which every two that can be said together stand together once."""

from __future__ import annotations

from itertools import combinations
from random import Random

from tests.pairs.choices import BASE, Choice

#: How many choices a text makes at most; the more, the likelier two contradict each other.
MOST = 16


def text_of(row: tuple[Choice, ...]) -> str:
    """The base with these choices made. Raises ValueError where one leaves no place for another."""
    text = BASE
    # What stands behind a piece of the base goes in before the piece itself is written otherwise.
    for choice in sorted(row, key=lambda one: "." not in one.about):
        for old, new in choice.changes:
            if text.count(old) != 1:
                raise ValueError(f"{choice}: {old!r} stands {text.count(old)} times")
            text = text.replace(old, new)
    return text


def together(one: Choice, other: Choice) -> bool:
    """Whether the two can be written in one text."""
    if one.about == other.about:
        return False
    try:
        text_of((one, other))
    except ValueError:
        return False
    return True


def rows(choices: list[Choice], seed: int = 1) -> list[tuple[Choice, ...]]:
    """Rows that cover every pair; greedy, the choice that adds most new pairs next."""
    chance = Random(seed)
    left = {
        frozenset((a, b)) for a, b in combinations(range(len(choices)), 2)
        if together(choices[a], choices[b])
    }  # fmt: skip
    possible = set(left)
    found = []
    while left:
        row = sorted(min(left, key=sorted))
        while len(row) < MOST:
            fitting = [
                n for n in range(len(choices))
                if n not in row and all(frozenset((n, other)) in possible for other in row)
            ]  # fmt: skip
            if not fitting:
                break
            gain = {n: sum(frozenset((n, other)) in left for other in row) for n in fitting}
            best = max(gain.values())
            if not best:
                break
            row.append(chance.choice([n for n in fitting if gain[n] == best]))
        left -= {frozenset(pair) for pair in combinations(row, 2)}
        found.append(tuple(choices[n] for n in sorted(row)))
    return found


def some_rows(
    choices: list[Choice], count: int, length: int, seed: int
) -> list[tuple[Choice, ...]]:
    """Rows drawn by chance, of choices that leave each other a place."""
    chance = Random(seed)
    found = []
    for _ in range(count):
        row: tuple[Choice, ...] = ()
        for choice in chance.sample(choices, len(choices)):
            if len(row) < length and all(choice.about != other.about for other in row):
                try:
                    text_of((*row, choice))
                except ValueError:
                    continue
                row = (*row, choice)
        found.append(row)
    return found
