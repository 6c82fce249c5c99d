"""Demands of a procedure on either side: which is about the same, and which asks for more."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hts.job.comparison.canonical import bound, put_to, value_of
from hts.job.comparison.direction import amount
from hts.job.comparison.registry import CHANGED, LOOSENED, TIGHTENED, Action
from hts.language.vocabulary.demanded import Demanded, Test, compared
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.types import Choice, Clock

_INVERSE: dict[Action, Action] = {TIGHTENED: LOOSENED, LOOSENED: TIGHTENED, CHANGED: CHANGED}


def subject(demanded: Demanded) -> str:
    """What a demand is about, without how much it asks for."""
    # One place on the clock may become two.
    told = {
        test.field.name
        for test in demanded.telling
        if not test.every and not isinstance(test.field.type, Clock)
    }
    parts = sorted(
        (test.field.name, test.element, _among(test) if test.field.name in told else "")
        for test in demanded.tests
    )
    return f"{put_to(demanded)}: {parts}"


def which_way(old: Demanded, new: Demanded, forbids: bool) -> Action:
    """Whether a demand that differs from an older one about the same asks for more, or for less;
    CHANGED where it does both, or it cannot be told. ``forbids``: what it names is forbidden."""
    if subject(old) != subject(new):
        return CHANGED
    found = set(_ways(old, new))
    action = found.pop() if len(found) == 1 else CHANGED
    return _INVERSE[action] if forbids else action


def _ways(old: Demanded, new: Demanded) -> Iterator[Action]:
    yield from _higher(max(old.number, old.in_all), max(new.number, new.in_all))
    yield from _higher(old.each_side, new.each_side)
    if (old.most is None) != (new.most is None):
        yield LOOSENED if new.most is None else TIGHTENED
    elif old.most is not None and new.most is not None:
        yield from _higher(new.most, old.most)
    theirs = {(test.field.name, test.element): test for test in new.tests}
    for test in old.tests:
        other = theirs[test.field.name, test.element]
        yield from _bounds(test, test.least, other.least, 1)
        yield from _bounds(test, test.most, other.most, -1)
        yield from _values(test, other)


def _higher(old: int, new: int) -> Iterator[Action]:
    if old != new:
        yield TIGHTENED if new > old else LOOSENED


def _bounds(test: Test, old: Any, new: Any, sign: int) -> Iterator[Action]:
    """``sign``: 1 where a higher bound asks for more, -1 where a lower one does."""
    before, after = bound(old, test.field), bound(new, test.field)
    if before == after:
        return
    if not before or not after:
        yield TIGHTENED if after else LOOSENED
        return
    first, second = amount(_figure(test, old)), amount(_figure(test, new))
    if first is None or second is None or first[1] != second[1]:
        yield CHANGED
    else:
        yield TIGHTENED if sign * (second[0] - first[0]) > 0 else LOOSENED


def _figure(test: Test, value: Any) -> str:
    """The canonical text of a bound that is one figure; of a formula on facts, what is none."""
    kind = compared(test.field)
    if isinstance(value, FormulaText) and kind is not None:
        return value_of(value.text, kind)
    return bound(value, test.field)


def _values(old: Test, new: Test) -> Iterator[Action]:
    """Values of which one will do: fewer of them ask for more. Of those that are all asked for,
    and of words each of which asks for more than the one before it, it is the other way round."""
    before, after = _each(old), _each(new)
    if before == after and old.every == new.every:
        return
    choice = old.field.type
    if isinstance(choice, Choice) and choice.ranked and before and after:
        ranks = [min(choice.choices.index(word) for word in words) for words in (before, after)]
        yield from _higher(*ranks)
        return
    if not before or not after:
        yield TIGHTENED if after else LOOSENED
        return
    several = [test.every or len(test.among) == 1 for test in (old, new)]
    single = [not test.every for test in (old, new)]
    if all(several) and (before < after or after < before) and (old.every or new.every):
        yield TIGHTENED if before < after else LOOSENED
    elif all(single) and (before < after or after < before):
        yield LOOSENED if before < after else TIGHTENED
    else:
        yield CHANGED


def _each(test: Test) -> set[str]:
    return {bound(value, test.field) for value in test.among}


def _among(test: Test) -> str:
    return " or ".join(sorted(_each(test)))
