"""Everything a record of a run is judged by, as it stands on the paper before the run.

Each requirement has the name the judgement of a record gives it (`hts record check`).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import zip_longest
from typing import NamedTuple

from hts.base.quantities import DIFFERENCE, Quantity
from hts.job.compiler.program import BAKE, PREHEAT
from hts.job.compiler.steps import COOL, HEAT, Step
from hts.job.compiler.why import Why, practice, stated
from hts.job.demands.asked import FROM_ALL, GAP, Asked
from hts.job.demands.critical import margins
from hts.job.demands.guard import guard
from hts.job.outputs.limits_in_words import gone_through_at, rate_limit, spread_limit
from hts.job.outputs.show import DOWN, UP, Shown, duration
from hts.language.vocabulary.allowances import Share
from hts.language.vocabulary.cycle import Bake
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.equipment import Instrument
from hts.language.vocabulary.segments import Cool
from hts.science.metallurgy.qualification import ORIGIN, longest_production

#: When a requirement is looked at, in this order.
BEFORE, HEATING, HOLDING, COOLING, AFTER, EVER = (
    "before heat",
    "heating",
    "hold",
    "cooling",
    "after heat",
    "whole run",
)
STAGES = (BEFORE, HEATING, HOLDING, COOLING, AFTER, EVER)


class Requirement(NamedTuple):
    """One requirement: `stage` is when it is looked at, `specified` what is asked for."""

    stage: str
    name: str
    specified: str
    why: Why | None


def requirements(asked: Asked, shown: Shown) -> list[Requirement]:
    """All of a run, by stage."""
    found = [
        *_begin(asked, shown),
        *_ramps(asked, shown),
        *_holds(asked, shown),
        *_temperatures(asked, shown),
        *_preheat(asked, shown),
        *_end(asked, shown),
        *_measuring(asked, shown),
        *_happens(asked, shown),
    ]
    return sorted(found, key=lambda one: STAGES.index(one.stage))


def _begin(asked: Asked, shown: Shown) -> Iterator[Requirement]:
    start = asked.record_start
    if start is not None:
        at = shown.text(start.written, DOWN)
        said = f"record begins with every required thermocouple at {at} or below"
        yield Requirement(BEFORE, "start of the record", said, start.why)
    kept = asked.kept_before
    if asked.comes_hot is not None:
        at = f"at least {shown.text(kept.written, UP)}" if kept is not None else "hot"
        said = f"{asked.comes_hot}: the weld stays {at} until it is heated"
        why = asked.why("begins", f"begins {asked.comes_hot}")
        yield Requirement(BEFORE, "kept hot before", said, why)
    below, delay = asked.cooled_below, asked.delay
    if below is not None:
        said = f"the weld has been below {shown.text(below.written, DOWN)} first"
        yield Requirement(BEFORE, "cooled before heat treatment", said, below.why)
    if delay is not None:
        within = duration(delay.written.value, DOWN)
        said = f"heating begins within {within} of the end of welding"
        yield Requirement(BEFORE, "delay before heat treatment", said, delay.why)
    for field, name, words in (
        ("furnace_at", "charging of the furnace", "furnace at charging at most"),
        ("unload_at", "unloading of the furnace", "furnace at unloading at most"),
    ):
        value = asked.stated(field)
        if isinstance(value, Quantity):
            stage = BEFORE if field == "furnace_at" else AFTER
            said = f"{words} {shown.text(value, DOWN)}"
            yield Requirement(stage, name, said, asked.why(field, f"{words} {value}"))


def _ramps(asked: Asked, shown: Shown) -> Iterator[Requirement]:
    for action, stage in ((HEAT, HEATING), (COOL, COOLING)):
        steps = [one for one in asked.run.program.steps if one.action == action and one.limit]
        if steps:
            said = "; ".join(dict.fromkeys(rate_limit(shown, step) for step in steps))
            said += f"; judged over {duration(asked.window.written.value)}"
            each, whole = asked.rate_excursion_each, asked.rate_excursion_total
            if each is not None:
                said += f", beyond it at most {duration(each.written.value, DOWN)} each time"
            if whole is not None:
                said += f", beyond it at most {duration(whole.written.value, DOWN)} in total"
            why = min(steps, key=lambda one: one.limit.value if one.limit else 0).limit_why
            yield Requirement(stage, f"{action}ing rate", said, why)
        steps_and_next = zip_longest(asked.run.program.steps, asked.run.program.steps[1:])
        for step, following in steps_and_next:
            segment = asked.segment_of(step)
            slowest = getattr(segment, "slowest", None)
            if step.action != action or slowest is None or step.end in (None, step.start):
                continue
            said = (
                f"at least {shown.text(slowest, UP)} from {shown.text(step.start)} to "
                f"{gone_through_at(shown, step, following)}"
            )
            why = stated(segment, "slowest", f"at least {slowest}") if segment else None
            yield Requirement(stage, f"slowest rate, step {step.number}", said, why)
    for bound in asked.heating_spreads:
        said = spread_limit(shown, bound)
        yield Requirement(HEATING, "spread while heating and cooling", said, bound.why)


def _holds(asked: Asked, shown: Shown) -> Iterator[Requirement]:
    groups = _grouped(asked.hold_steps)
    for group in groups:
        only = len(groups) == 1
        of = "" if only else f", step {group[0].number}"
        window = group[0].window
        assert window is not None and window.low is not None and window.high is not None
        within = f"{shown.text(window.low, UP)} to {shown.text(window.high, DOWN)}"
        who = "every required thermocouple" if asked.counts_all else "the controlling thermocouples"
        said = f"{who} in {within}"
        times = [one.least.value for one in group if one.least is not None]
        if times:
            said += f" for at least {duration(sum(times, Fraction(0)))}"
        if getattr(asked.segment_of(group[0]), "after", None) == FROM_ALL and not asked.counts_all:
            said += ", counted from when all are in range"
        if not asked.adds_up:
            said += " without interruption"
        yield Requirement(HOLDING, f"hold time{of}", said, group[0].least_why)
        longest = {one: bound for one in group if (bound := asked.longest_of(one)) is not None}
        if longest:
            most = sum((bound.written.value for bound in longest.values()), Fraction(0))
            others = [one.least.value for one in group if one not in longest and one.least]
            said = f"no required thermocouple in {within}, or above it, for more than "
            if len(longest) < len(group):
                said += "".join(
                    f"{duration(bound.written.value, DOWN)} in step {one.number}, "
                    for one, bound in longest.items()
                )
                said += f"{duration(most + sum(others, Fraction(0)), DOWN)} in all steps of it"
            else:
                said += duration(most, DOWN)
            if not only:
                said += ", the time of other holds left out"
            yield Requirement(HOLDING, f"longest hold{of}", said, next(iter(longest.values())).why)
        if asked.by_mean is not None:
            why = Why(
                source=asked.by_mean.name,
                edition=asked.by_mean.edition,
                citation="holding",
                basis="published",
            )
            said = f"mean of the highest and the lowest reading in {within}"
            yield Requirement(HOLDING, f"holding temperature{of}", said, why)
    for spread in asked.holding_spreads:
        said = spread_limit(shown, spread)
        yield Requirement(HOLDING, "spread during the hold", said, spread.why)
    for share in asked.shares:
        why = stated(share, "place_", f"at the {share.place_}")
        yield Requirement(HOLDING, f"share of the hold at the {share.place_}", said_of(share), why)
    for mean in asked.means:
        low, high = mean.ends
        within = f"{shown.text(low, UP)} to {shown.text(high, DOWN)}"
        said = f"mean of {mean.of} in {within} for as long as the hold is asked to last"
        why = stated(mean, "range", str(mean.range))
        yield Requirement(HOLDING, f"mean of the hold, {mean.of}", said, why)
    each, whole = asked.excursion_each, asked.excursion_total
    parts = [f"at most {duration(each.written.value, DOWN)} each time"] if each else []
    parts += [f"at most {duration(whole.written.value, DOWN)} in total"] if whole else []
    bound = whole or each
    said = ", ".join(parts) or "none: nothing is said to be tolerated"
    # Of a preheat `preheat maintained` says it.
    if groups and (parts or asked.kind != PREHEAT):
        name = "time outside the hold range"
        yield Requirement(HOLDING, name, said, bound.why if bound is not None else None)


def said_of(share: Share) -> str:
    """`at least 50 %, at most 60 % of the lowest required reading, in °C`."""
    parts = [f"at least {share.least}"] if share.least is not None else []
    parts += [f"at most {share.most}"] if share.most is not None else []
    return f"{', '.join(parts)} of the lowest required reading, in °C"


def _grouped(steps: tuple[Step, ...]) -> list[list[Step]]:
    """Neighbouring holds of one range belong together."""
    found: list[list[Step]] = []
    for step in steps:
        last = found[-1][-1] if found else None
        same = last is not None and last.number == step.number - 1 and last.window == step.window
        if same:
            found[-1].append(step)
        else:
            found.append([step])
    return found


def _temperatures(asked: Asked, shown: Shown) -> Iterator[Requirement]:
    tops = [one for one in asked.hold_steps if one.window is not None and one.window.high]
    if tops:
        top = max(tops, key=lambda one: one.window.high.value)  # type: ignore[union-attr]
        assert top.window is not None and top.window.high is not None
        said = f"at most {shown.text(top.window.high, DOWN)}"
        why = top.window_why[-1] if top.window_why else None
        yield Requirement(EVER, "highest temperature", said, why)
    for margin in margins(asked):
        said = f"at most {shown.text(margin.limit, DOWN)}"
        if margin.kept is not None:
            said += f": {shown.text(margin.kept)} below {shown.text(margin.figure)}"
        yield Requirement(EVER, f"margin below {margin.name}", said, margin.why)
    for item in asked.sheet.joint.entry.nearby:
        if item.at_most is not None and not item.removed:
            tags = ", ".join(one.tag for one in asked.watching(item))
            name = f"{item.what} ({tags})" if tags else item.what
            said = f"at most {shown.text(item.at_most, DOWN)}"
            said += "" if tags else "; no thermocouple watches it: how it is shown is written down"
            why = stated(item, "at_most", f"at most {item.at_most}")
            yield Requirement(EVER, f"temperature of {name}", said, why)
    band = guard(asked)
    if band.rule is not None:
        width = Quantity.of(Fraction(band.width).limit_denominator(1000), "K", DIFFERENCE)
        said = f"limits of temperature are met with {shown.text(width, UP)} to spare"
        said += f" ({band.rule})"
        if band.lacks:
            said = f"{band.rule}; the error of the {' and of the '.join(band.lacks)} is not stated"
        yield Requirement(EVER, "guard band", said, band.why)


def _preheat(asked: Asked, shown: Shown) -> Iterator[Requirement]:
    if asked.kind == PREHEAT:
        kept = asked.stated("maintain")
        field = "maintain" if isinstance(kept, Quantity) else "at_least"
        kept = kept if isinstance(kept, Quantity) else asked.sheet.limits.preheat()
        if isinstance(kept, Quantity):
            said = f"at least {shown.text(kept, UP)} until the end of welding"
            why = asked.why(field, f"at least {kept}")
            yield Requirement(EVER, "preheat maintained", said, why)
        most = asked.greatest_preheat
        if most is not None:
            said = f"at most {shown.text(most.written, DOWN)} before the first arc"
            yield Requirement(BEFORE, "greatest preheat", said, most.why)
        between = getattr(asked.stated("interpass"), "at_least", None)
        if isinstance(between, Quantity):
            said = f"at least {shown.text(between, UP)} before the next pass"
            why = asked.why("interpass", f"at least {between}")
            yield Requirement(EVER, "lowest interpass temperature", said, why)


def _end(asked: Asked, shown: Shown) -> Iterator[Requirement]:
    if asked.end_bound is not None:
        at = shown.text(asked.end_bound.written, DOWN)
        said = f"record goes on until every required thermocouple is at {at} or below"
        yield Requirement(COOLING, "end of the record", said, asked.end_bound.why)
    for segment in getattr(asked.entry, "segments", []):
        if isinstance(segment, Cool) and segment.medium is not None:
            why = stated(segment, "medium", f"cool in {segment.medium}")
            yield Requirement(COOLING, "cooling medium", f"in {segment.medium}", why)
    strip = asked.stated("strip_below")
    if isinstance(strip, Quantity):
        said = f"removed below {shown.text(strip, DOWN)}"
        why = asked.why("strip_below", f"remove insulation below {strip}")
        yield Requirement(AFTER, "insulation", said, why)
    left = asked.stated("hydrogen_left")
    if isinstance(left, Quantity):
        said = f"at most {left} of the hydrogen left in the wall, by estimate"
        why = asked.why("hydrogen_left", f"hydrogen left at most {left}")
        yield Requirement(HOLDING, "hydrogen left", said, why)
    if isinstance(asked.entry, Bake) and asked.entry.test_delay is not None:
        delay = asked.entry.test_delay
        said = f"not before {duration(delay.value)} have passed"
        why = asked.why("test_delay", f"test after {delay}")
        yield Requirement(AFTER, "delay before testing", said, why)
    if asked.kind not in (PREHEAT, BAKE) and asked.hold_steps:
        yield from _all_treatments(asked)


def _all_treatments(asked: Asked) -> Iterator[Requirement]:
    name = "time at temperature, all treatments"
    joint = asked.sheet.joint.entry
    earlier = sum((one.time.value for one in joint.earlier), Fraction(0))
    before = f"; {duration(earlier)} of it had before" if earlier else ""
    ruled = asked.ruled("total hold")
    covered = [test for test in joint.qualified if test.hold is not None and test.toughness]
    for test in covered:
        assert test.hold is not None
        most = longest_production(Fraction(test.hold.value))
        said = f"at most {duration(most, DOWN)}: {test.record} with {test.hold} / 0.8{before}"
        why = stated(test, "hold", f"{test.record}: hold {test.hold}")
        why = why._replace(
            source=ORIGIN.standard,
            citation=ORIGIN.paragraph,
            basis=ORIGIN.basis,
            confidence=ORIGIN.confidence,
        )
        yield Requirement(AFTER, name, said, why)
    if not covered and ruled is not None and isinstance(ruled.value, Quantity):
        said = f"at most {duration(ruled.value.value, DOWN)}{before}"
        yield Requirement(AFTER, name, said, ruled.why)
    tempered = asked.ruled("tempering parameter")
    if tempered is not None and isinstance(tempered.value, Fraction):
        said = f"at most {float(tempered.value):g}, T (20 + lg t) / 1000 with T in K, t in h"
        yield Requirement(AFTER, "tempering parameter, all treatments", said, tempered.why)


def _measuring(asked: Asked, shown: Shown) -> Iterator[Requirement]:
    program = asked.run.program
    tags = ", ".join(one.tag for one in asked.required)
    said = f"readings throughout of every required one: {tags}" if tags else "at least one required"
    why = Why(source="this specification", note="required: in range during the hold")
    yield Requirement(EVER, "thermocouples", said, why)
    recorder = program.recorder
    every = recorder.interval if recorder is not None else None
    if recorder is not None and every is not None:
        longest = duration(every.value * GAP, DOWN)
        said = f"every {duration(every.value)}, no gap above {longest} ({GAP} intervals)"
        yield Requirement(EVER, "readings", said, stated(recorder, "interval", f"interval {every}"))
    else:
        said = f"no gap above {GAP} intervals of the recorder"
        why = practice(f"{GAP} × interval", "assumed: the text states no interval")
        yield Requirement(EVER, "readings", said, why)
    yield Requirement(EVER, "clock of the record", "not set during the run", None)
    why = practice("", "what is measured wrong shows nothing")
    said = "no fault that puts readings in doubt"
    yield Requirement(EVER, "measuring chains", said, why)
    named = asked.job.document
    said = f"one run to revision {named.revision}"
    said += f", not before {named.dated}" if named.dated else ""
    why = Why(source="this specification", note="revision and date of the document")
    yield Requirement(EVER, "run of the record", said, why)
    if recorder is not None:
        serial = f", serial {recorder.serial}" if recorder.serial else ""
        clock = f", clock {recorder.clock}" if recorder.clock else ""
        why = stated(recorder, "name", recorder.name)
        said = f"{recorder.name}{serial}{clock}"
        yield Requirement(BEFORE, "identity of the recorder", said, why)
    block = asked.sheet.joint.entry.thermocouples
    for name, one in (
        (f"recorder {recorder.name}" if recorder else "", recorder),
        (f"controller {program.controller.name}" if program.controller else "", program.controller),
        ("thermocouple wire", block),
    ):
        if one is None or (not isinstance(one, Instrument) and one.calibrated is None):
            continue
        dates = "valid on the day; the specification states no dates"
        by: Why | None = None
        if one.calibrated is not None:
            dates = f"from {one.calibrated.on} until {one.calibrated.until or ''}"
            if one.calibrated.certificate:
                dates += f", certificate {one.calibrated.certificate}"
            by = stated(one.calibrated, "on", dates)
        yield Requirement(BEFORE, f"calibration of {name}", dates, by)


def _happens(asked: Asked, shown: Shown) -> Iterator[Requirement]:
    """What is judged only where something happens."""
    for field, name, silent in (
        ("power_loss", "power loss", "ask the engineer"),
        ("thermocouple_loss", "thermocouple loss", "ask the engineer"),
        ("over_rate", "over-rate", ""),
        ("cooling_fault", "cooling fault", ""),
    ):
        rule = asked.stated(field)
        action = getattr(rule, "action", silent)
        if not action:
            continue
        said = f"where it happens: {action}"
        within = getattr(rule, "within", None)
        if isinstance(within, Quantity):
            said += f" within {duration(within.value, DOWN)}"
        why = stated(rule, "action", str(action)) if isinstance(rule, Entry) else None
        yield Requirement(EVER, name, said, why)
    if asked.hold_steps:
        said = "where it happens: explained by an event in the record"
        yield Requirement(EVER, "interruption of the hold", said, None)
