"""Alarms, the wait for the slowest and spreads fit into the hold range."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import broken
from hts.checking.rules.helpers.steps import hottest
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.allowances import Limit as Spread

#: K below the range, by which a low alarm in whole degrees of the other system may come later.
_BELOW = 1
#: K; widths and spreads turned into the other system are rounded.
_ROUNDED = 3
_TOLERANCE = "  control tolerance  +/- 5 K\n"


def _with(line: str) -> tuple[tuple[str, str], ...]:
    return (("  rate margin  ", f"  {line}\n  rate margin  "),)


RULE = Rule(
    "Y121",
    "alarm-wider-than-range",
    "warning",
    summary="A deviation alarm, a wait for the slowest, a low alarm or a spread that lets "
    "temperatures leave the hold range before anything happens.",
    why="What is to tell that the hold fails stays silent while it fails.",
    fix="Keep it within the distance from the setpoint to the ends of the range.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            _with("deviation alarm  {}"),
            keeps="15 K",
            breaks="16 K",
            says="16 K (28.8 degF) … 15 K (27 degF)",
        ),
        Edge(
            _with("wait for slowest within  {}"),
            keeps="30 K",
            breaks="31 K",
            says="31 K (55.8 degF) … is 30 K (54 degF)",
        ),
        Edge(
            _with("alarm above  728 degC\n  alarm below  {}"),
            keeps="699 degC",
            breaks="698 degC",
            says="698 degC (1288 degF) … 700 degC (1292 degF)",
        ),
        Edge(
            (*_with("alarm above  728 degC\n  alarm below  {}"), (_TOLERANCE, "")),
            keeps="714 degC",
            breaks="715 degC",
            says="715 degC (1319 degF) … of 715 degC (1319 degF)",
        ),
        Edge(
            _with("holding spread  at most {}"),
            keeps="33 K",
            breaks="34 K",
            says="of 34 K (61.2 degF) … 30 K (54 degF)",
        ),
        Edge(
            _with("heating spread  at most {}\n  holding spread  at most 25 K"),
            keeps="25 K",
            breaks="24 K",
            says="24 K (43.2 degF) … 25 K (45 degF)",
        ),
    ),
    good=(
        Good(_with("deviation alarm  12 K")),
        Good(_with("alarm above  728 degC\n  alarm below  702 degC")),
        Good(_with("heating spread  at most 100 K\n  holding spread  at most 25 K")),
    ),
    agrees=(
        Agreement("cycle.deviation alarm", "cycle.hold.range", "within it on both sides"),
        Agreement("cycle.wait for slowest within", "cycle.hold.range", "no more than its width"),
        Agreement("cycle.alarm below", "cycle.hold.range", "at its lower end, below the setpoint"),
        Agreement("cycle.holding spread.at most", "cycle.hold.range", "no more than its width"),
        Agreement("cycle.heating spread.at most", "cycle.holding spread.at most", "no less"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    stated = (entry.deviation, entry.hold_back, entry.alarm_low)
    if not entry.holding_spread and all(each is None for each in stated):
        return
    top = hottest(case, treatment)
    if top is None:
        return
    hold = top[0]
    held = case.limits(treatment.joint, treatment).hold_range(hold)
    assert held is not None and held.low is not None and held.high is not None
    spread = _over_all(entry.holding_spread)
    governing = case.limits(treatment.joint, treatment).of("holding spread")
    told_by_limit = (
        spread is not None
        and spread.at_most is not None
        and governing is not None
        and bool(broken(governing, "maximum", spread.at_most))
    )
    for message, at in _told(treatment, held.low, held.high, hold.target, told_by_limit):
        case.add(
            RULE.found(
                message,
                at,
                address=treatment.address,
                others=[Label(hold.place(), "the hold")],
                basis=RULE.basis,
            )
        )


def _told(
    treatment: Treatment,
    low: Quantity,
    high: Quantity,
    target: Quantity | None,
    told_by_limit: bool,
) -> Iterator[tuple[str, Span]]:
    entry = treatment.entry
    width = high - low
    setpoint = target or low + width / 2
    # An alarm at an end of the range watches that end whatever the setpoint is.
    above, below = high - setpoint, setpoint - low
    if entry.alarm_high is not None or entry.alarm_low is not None:
        room = max(above, below)
    else:
        room = min(above, below)
    if entry.deviation is not None and entry.deviation > room:
        yield (
            f"the deviation alarm comes at {entry.deviation.both()}, the range ends "
            f"{room.both()} from the setpoint",
            entry.place("deviation"),
        )
    if entry.hold_back is not None and entry.hold_back > width:
        yield (
            f"the program waits for a zone that lags {entry.hold_back.both()}, the range is "
            f"{width.both()} wide",
            entry.place("hold_back"),
        )
    alarm = entry.alarm_low
    if alarm is not None and alarm >= setpoint:
        yield (
            f"the low alarm at {alarm.both()} is not below the setpoint of {setpoint.both()}",
            entry.place("alarm_low"),
        )
    elif alarm is not None and alarm.value < low.value - _BELOW:
        yield (
            f"the low alarm comes at {alarm.both()}, after the range is left at {low.both()}",
            entry.place("alarm_low"),
        )
    in_hold, on_way = _over_all(entry.holding_spread), _over_all(entry.heating_spread)
    holding = in_hold.at_most if in_hold is not None else None
    heating = on_way.at_most if on_way is not None else None
    if (
        in_hold is not None
        and holding is not None
        and holding.value > width.value + _ROUNDED
        and not told_by_limit
    ):
        yield (
            f"a spread of {holding.both()} is allowed in a range {width.both()} wide",
            in_hold.place("at_most"),
        )
    elif on_way is not None and holding is not None and heating is not None and heating < holding:
        yield (
            f"while heating {heating.both()} of spread are allowed, in the hold {holding.both()}",
            on_way.place("at_most"),
        )


def _over_all(spreads: Sequence[Spread]) -> Spread | None:
    """The spread that counts over the longest distance: any distance, where one says none."""
    stated = [each for each in spreads if each.at_most is not None]
    return max(
        stated,
        key=lambda each: (each.within is None, each.within.value if each.within else 0),
        default=None,
    )
