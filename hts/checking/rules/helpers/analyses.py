"""An analysis held against the family of alloy it ought to be of."""

from __future__ import annotations

from collections.abc import Iterable

from hts.language.vocabulary.types import Share
from hts.science.tables.analyses import Analysis


def misfits(
    composition: Iterable[Share], family: Analysis, needed: Iterable[str] | None = None
) -> list[str]:
    """What does not fit, in words; empty where all does. ``needed``: instead of the family's."""
    shares = list(composition)
    given = {share.element for share in shares}
    found = []
    for share in shares:
        low, high = family.ranges.get(share.element, (0.0, 100.0))
        value = float(share.fraction.value)
        if value < low:
            found.append(f"{share.element} {share.fraction} is below {low:g} %")
        elif value > high:
            found.append(f"{share.element} {share.fraction} is above {high:g} %")
    expected = list(family.needed if needed is None else needed)
    # Deposits are analysed for less.
    if needed is None and given.intersection(family.together):
        expected += family.together
    found += [f"{element} is not given" for element in expected if element not in given]
    twice = {
        share.element for share in shares if [s.element for s in shares].count(share.element) > 1
    }
    found += [f"{element} is given twice" for element in sorted(twice)]
    return found
