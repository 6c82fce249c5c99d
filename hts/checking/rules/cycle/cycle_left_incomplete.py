"""The cycles of one job are guarded alike."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.examples import CYCLE
from hts.checking.rules.helpers.fellows import lacking, listed
from hts.checking.rules.rule import Bad, Good, Rule

_END = "  on thermocouple loss  change to the spare\n}\n"
_W13 = "joint W13 like W12 { }\n\n"
_PREHEAT = ("preheat W12 {", f"{_W13}preheat W12, W13 {{")
_MARGIN = "  rate margin         10 %\n"
_SECOND = f"\ncycle second for W13 {{\n{CYCLE}"

#: What guards the metal while it is hot, whoever stands there.
_GUARDS = (
    "rate_margin",
    "hold_back",
    "interrupted_hold",
    "alarm_high",
    "alarm_low",
    "deviation",
    "sensor_break",
    "strip_below",
    "power_loss",
    "thermocouple_loss",
    "heater_loss",
    "over_rate",
)

RULE = Rule(
    "Y122",
    "cycle-left-incomplete",
    "warning",
    summary="A cycle that alone leaves out an alarm, a margin or what is done when something fails, "
    "which every other cycle of the job states.",
    why="It was typed from another and a line was lost: one joint of the job is heated without "
    "that guard.",
    fix="State it in this cycle too, or in none.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((_PREHEAT, (_END, f"{_END}{_SECOND}  alarm above 729 degC\n}}\n")), at="stress-relief"),
        Bad(
            (
                _PREHEAT,
                (_END, f"{_END}{_SECOND.replace(_MARGIN, '')}}}\n"),
            ),
            at="second",
        ),
    ),
    good=(Good((_PREHEAT, (_END, f"{_END}{_SECOND}}}\n"))),),
)


@RULE.for_spec
def check(case: Case) -> None:
    # A heat treatment that is not required, or one in a furnace, is run in another way.
    cycles = [cycle for cycle in case.spec.file.cycles if cycle.segments]
    methods = {
        joint.entry.heating.method
        for joint in case.joints()
        if joint.cycles and joint.entry.heating is not None
    }
    if len(methods) > 1:
        return
    for entry, words in lacking(cycles, _GUARDS):
        cycle = next(one for one in cycles if one is entry)
        other = next(one for one in cycles if one is not entry)
        case.add(
            RULE.found(
                f"{cycle.name} does not state {listed(words)}, "
                f"the other cycle{'s do' if len(cycles) > 2 else ' does'}",
                cycle.place("name"),
                address=cycle.address,
                others=[Label(other.place("name"), "states it")],
                basis=RULE.basis,
            )
        )
