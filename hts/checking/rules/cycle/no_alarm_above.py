"""A low alarm is not the only one."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import hottest
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment

_MARGIN = "  rate margin  "
_HIGH = "  alarm above  725 degC\n"
_LOW = "  alarm below  705 degC\n"

RULE = Rule(
    "Y131",
    "no-alarm-above",
    "warning",
    summary="An alarm below the hold, and none above it nor a deviation alarm.",
    why="Metal that runs away upwards is spoiled for good, and nothing sounds.",
    fix="Add `alarm above`, or `deviation alarm`, which watches both sides.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_MARGIN, _LOW + _MARGIN),), at="alarm below", says="above 730 degC (1346 degF)"),),
    good=(
        Good(((_MARGIN, _HIGH + _LOW + _MARGIN),)),
        Good(((_MARGIN, f"  alarm below  700 degC\n  deviation alarm 12 K\n{_MARGIN}"),)),
    ),
    agrees=(Agreement("cycle.alarm below", "cycle.alarm above", "one above, or of deviation"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    low, high, deviation = (
        getattr(entry, field, None) for field in ("alarm_low", "alarm_high", "deviation")
    )
    top = hottest(case, treatment)
    if low is None or high is not None or deviation is not None or top is None:
        return
    hold, high = top
    case.add(
        RULE.found(
            f"nothing sounds when {treatment.name} rises above {high.both()}",
            entry.place("alarm_low"),
            address=treatment.address,
            others=[Label(hold.place(), "the hold")],
            basis=RULE.basis,
        )
    )
