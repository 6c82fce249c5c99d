"""Whether an entry of a job says what a demand wants of it."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import Any, NamedTuple

from hts.base.quantities import Interval, Quantity
from hts.base.quantities.clock import ClockPosition
from hts.base.quantities.number import read_number
from hts.checking.govern.facts import total_width
from hts.checking.govern.instances import Instance, Since
from hts.checking.govern.joint import JointLimits
from hts.language.vocabulary.declare import FLAG, WORKED_OUT, Entry, Field
from hts.language.vocabulary.demanded import Test, compared, stated
from hts.language.vocabulary.equipment import Instrument
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.segments import Heat, Hold
from hts.language.vocabulary.types import (
    ByRule,
    Choice,
    Edition,
    Number,
    OffsetValue,
    Processes,
    Reference,
    Share,
    Text,
    WidthValue,
)
from hts.science.tables.welding_processes import TOLD_BY_LETTERS, answers_to, letters, processes
from hts.syntax.formula import Fact, Formula, FormulaError, UnknownFact

#: Half an hour of the clock counts as the place itself: practice, no source.
_NEAR = 15
_BANDS = {"soak_band": "soak band", "heated_band": "heated band", "gradient_band": "gradient band"}
Facts = Sequence[Mapping[str, Fact]]


class Fit(NamedTuple):
    """Whether a test is met (None: nobody can say), and in words why not."""

    met: bool | None
    why: str = ""


MET = Fit(True)


def fit(
    test: Test,
    instance: Instance,
    limits: JointLimits | None,
    facts: Facts,
    run_out: Callable[[str], bool],
    exactly: bool = False,
) -> Fit:
    """Puts one test to one entry; ``facts`` are those of each side the demand is for, ``run_out``
    tells whether a day is over, and ``exactly`` takes no word for one that asks for more."""
    field = test.field
    label = " ".join(field.words) or field.name.replace("_", " ").strip()
    said = instance.value(field)
    if field.form == FLAG:
        return MET if said else Fit(False, f"it does not say `{label}`")
    if field.form == WORKED_OUT and said is None:
        return _untold(instance, field)
    if isinstance(said, Since):
        return _since_fits(test, said, facts, run_out)
    if said is None or (field.many and not said):
        return Fit(False, f"it does not say `{label}`" if field.words else "it does not say it")
    if not test.among and test.least is None and test.most is None and not test.element:
        return MET
    values = said if field.many else [said]
    # Of an analysis the element asked for tells, not the first of it.
    values = [each for each in values if _is_of(test, each)] or values
    fits = [_value_fits(test, instance, value, limits, facts, exactly) for value in values]
    best = next((each for each in fits if each.met), None)
    if best is None:
        best = next((each for each in fits if each.met is None), fits[0])
    return best


def _is_of(test: Test, value: Any) -> bool:
    return isinstance(value, Share) and value.element == test.element


def _value_fits(
    test: Test,
    instance: Instance,
    value: Any,
    limits: JointLimits | None,
    facts: Facts,
    exactly: bool,
) -> Fit:
    field = test.field
    if test.element:
        if not isinstance(value, Share) or value.element != test.element:
            return Fit(False, f"it does not give {test.element}")
        value = value.fraction
    if any(isinstance(each, ByRule) for each in test.among):
        return MET if isinstance(value, ByRule) else Fit(False, "it is not `by rule`")
    if isinstance(value, ByRule):
        value = _by_rule(instance.entry, field, limits)
        if value is None:
            return Fit(None, "the rules in force give no value")
    size = _size(test, value, field, limits)
    if size is None:
        return _word_fits(test, value, exactly)
    try:
        if test.among:
            options = [each for bound in test.among for each in _bounds(bound, field, facts)]
            if any(_inside(size, option) for option in options):
                return MET
            return Fit(False, f"it is {_shown(size)}, not {' or '.join(map(_shown, options))}")
        low, high = (size.low, size.high) if isinstance(size, Interval) else (size, size)
        for bound, words, of in ((test.least, "at least", low), (test.most, "at most", high)):
            for limit in _bounds(bound, field, facts) if bound is not None else ():
                if isinstance(limit, Interval):
                    ok = _inside(limit, size) if words == "at least" else _inside(size, limit)
                else:
                    ok = of >= limit if words == "at least" else of <= limit
                if not ok:
                    return Fit(False, f"it is {_shown(size)}, not {words} {_shown(limit)}")
    except UnknownFact as unknown:
        return Fit(None, f"it hangs on {', '.join(n.replace('_', ' ') for n in unknown.names)}")
    except FormulaError as error:
        return Fit(None, error.message)
    except TypeError:
        return Fit(None, f"it is {_shown(size)}, on a scale that does not compare with the demand")
    return MET


def _untold(instance: Instance, field: Field) -> Fit:
    """What follows from the rest, where the rest does not tell it."""
    if isinstance(instance.entry, Instrument):
        return Fit(False, "it does not say when it was calibrated")
    return Fit(None, f"`{' '.join(field.words)}` cannot be told of it: its place is not known")


def _since_fits(test: Test, since: Since, facts: Facts, run_out: Callable[[str], bool]) -> Fit:
    """A time that runs since a day, on the day of the work."""
    begun = datetime.date.fromisoformat(since.day)
    for bound, longest in (
        (test.least, False),
        (test.most, True),
        *((b, True) for b in test.among),
    ):
        for limit in _bounds(bound, test.field, facts) if bound is not None else ():
            last = (begun + datetime.timedelta(days=int(limit.to("d")))).isoformat()
            if run_out(last) == longest:
                counts = "counts until" if longest else "counts from"
                called = " ".join(test.field.words)
                return Fit(False, f"the {called} of {since.day} {counts} {last}")
    return MET


def _word_fits(test: Test, value: Any, exactly: bool) -> Fit:
    """Words, names, days and places on the clock."""
    choice = stated(test.field)
    if isinstance(choice, Choice) and choice.ranked and not exactly:
        least = min(choice.choices.index(each) for each in test.among)
        if choice.choices.index(value) >= least:
            return MET
    if isinstance(stated(test.field), Processes):
        return _processes_fit(test, value)
    free = isinstance(stated(test.field), Text)
    if any(_same(value, each, free) for each in test.among):
        return MET
    wanted = " or ".join(dict.fromkeys(map(_shown, test.among)))
    return Fit(False, f"it is {_shown(value)}, not {wanted}")


def _processes_fit(test: Test, value: str) -> Fit:
    """Processes by any of their names: SMAW is 111. A number is not told by letters alone."""
    named = processes(value)
    answers = {name for each in named for name in answers_to(each)}
    open_ = False
    for each in test.among:
        wanted = processes(each)
        if not all(name in answers for name in wanted):
            continue
        by_number = {letters(name) for name in named if name.isdigit()}
        if all(
            not name.isdigit() or name in TOLD_BY_LETTERS or letters(name) in by_number
            for name in wanted
        ):
            return MET
        open_ = True
    wanted_words = " or ".join(map(_shown, test.among))
    if open_:
        return Fit(None, f"it is {value}, which does not tell whether it is {wanted_words}")
    return Fit(False, f"it is {value}, not {wanted_words}")


def _same(value: Any, wanted: Any, free: bool) -> bool:
    """``free``: the value is a free text, which has to hold the words demanded."""
    if isinstance(value, ClockPosition):
        return value.distance_to(wanted) <= _NEAR
    if isinstance(value, Reference):
        return bool(value.name == wanted.name)
    if isinstance(value, Edition):
        return value.book == wanted.book and wanted.edition in (None, value.edition)
    if free:
        return re.search(rf"(?<!\w){re.escape(wanted)}(?!\w)", value, re.IGNORECASE) is not None
    return bool(value == wanted)


def _size(test: Test, value: Any, field: Field, limits: JointLimits | None) -> Any:
    """What can be compared by size: a quantity, a number, a range; None for words."""
    if isinstance(value, OffsetValue):
        return value.distance if not _sided(test) else None
    if isinstance(value, WidthValue):
        return total_width(value, limits.thickness if limits is not None else None)
    if isinstance(value, Quantity | Interval):
        return value
    if isinstance(value, int) and not isinstance(value, bool):
        return Fraction(value)
    if isinstance(value, str) and isinstance(stated(field), Number):
        return Fraction(read_number(value))
    return None


def _sided(test: Test) -> bool:
    """Whether a distance is demanded on one side of the weld, as a place and not as a length."""
    return any(isinstance(each, OffsetValue) for each in test.among)


def _by_rule(entry: Entry, field: Field, limits: JointLimits | None) -> Any:
    """The value the rules in force give for a field that says `by rule`; None without one. A width
    is the whole one."""
    if limits is None:
        return None
    if field.name in _BANDS:
        return limits.band(_BANDS[field.name])
    if isinstance(entry, Hold):
        return limits.hold_range(entry) if field.name == "range" else limits.hold_time(entry)
    if field.name == "governing_thickness":
        return limits.thickness
    if field.name == "zone_count":
        return limits.zone_count()
    if field.name == "width":
        # Books give that of a preheat on each side of the weld.
        beside = limits.derived("preheat width", "minimum")
        return None if beside is None else beside.value * 2
    if field.name == "rate":
        rate = "heating rate" if isinstance(entry, Heat) else "cooling rate"
        derived = limits.derived(rate, "maximum")
        return None if derived is None else derived.value
    return limits.preheat() if field.name == "at_least" else limits.interpass()


def _bounds(bound: Any, field: Field, facts: Facts) -> list[Any]:
    """The values of a bound, one for each side where it is a formula."""
    if isinstance(bound, int) and not isinstance(bound, bool):
        return [Fraction(bound)]
    if not isinstance(bound, FormulaText):
        return [bound]
    formula = Formula.parse(bound.text, compared(field))
    return [formula.evaluate(each) for each in facts or ({},)]


def _inside(inner: Any, outer: Any) -> bool:
    """Whether a value or a range is the other one, or lies in it."""
    if not isinstance(outer, Interval):
        return not isinstance(inner, Interval) and bool(inner == outer)
    low, high = (inner.low, inner.high) if isinstance(inner, Interval) else (inner, inner)
    return (outer.low is None or (low is not None and low >= outer.low)) and (
        outer.high is None or (high is not None and high <= outer.high)
    )


def _shown(value: Any) -> str:
    if isinstance(value, Quantity):
        return value.both()
    if isinstance(value, Interval):
        return f"{value.low} .. {value.high}"
    if isinstance(value, Reference):
        return value.name
    if isinstance(value, OffsetValue):
        return f"{value.distance} {value.side}"
    if isinstance(value, Edition):
        return f"{value.book} {value.edition or ''}".strip()
    return str(value)
