"""The mean of several thermocouples has its range inside that of the hold, about its setpoint."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Interval, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

_LINE = "  rate margin  "

RULE = Rule(
    "Y125",
    "mean-outside-hold",
    "warning",
    summary="A range for the mean in the hold that the hold cannot keep, or keeps anyway.",
    why="A mean outside the range of its hold is never met, one as wide as that limits nothing, "
    "and a hold set to a temperature outside it misses it from the start.",
    fix="Give the mean a range inside that of the hold, about its setpoint.",
    source="arithmetic: the range of the hold",
    basis="derived",
    bad=(
        Bad(
            ((_LINE, f"  mean of hold 700 .. 730 degC of all\n{_LINE}"),),
            at="700 .. 730 degC",
            says="700 degC (1292 degF) to 730 degC (1346 degF) … "
            "inside the hold of 700 degC (1292 degF) to 730 degC (1346 degF)",
        ),
    ),
    edges=(
        Edge(
            ((_LINE, f"  mean of hold 708 .. {{}} of all\n{_LINE}"),),
            keeps="730 degC",
            breaks="731 degC",
            says="708 degC (1306 degF) to 731 degC (1348 degF) … "
            "inside the hold of 700 degC (1292 degF) to 730 degC (1346 degF)",
        ),
        Edge(
            ((_LINE, f"  mean of hold {{}} .. 728 degC of all\n{_LINE}"),),
            keeps="715",
            breaks="716",
            says="set to 715 degC (1319 degF), outside the 716 degC (1321 degF) to "
            "728 degC (1342 degF)",
        ),
    ),
    good=(Good(((_LINE, f"  mean of hold 708 .. 722 degC of all\n{_LINE}"),)),),
    agrees=(Agreement("cycle.mean of hold.range", "cycle.hold.range", "lies inside"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    holding = [(hold, _ends(held)) for hold, held in holds(case, treatment)]
    # A hold that cannot be read may be the one the mean is for.
    if not holding or len(holding) != sum(isinstance(s, Hold) for s in treatment.entry.segments):
        return
    for mean in treatment.entry.means:
        low, high = mean.ends
        within = [
            (hold, ends)
            for hold, ends in holding
            if ends[0] <= low and high <= ends[1] and (low, high) != ends
        ]
        if not within:
            hold, (lowest, highest) = holding[0]
            case.add(
                RULE.found(
                    f"the mean is held to {low.both()} to {high.both()}, which does not lie "
                    f"inside the hold of {lowest.both()} to {highest.both()}",
                    mean.place("range"),
                    address=treatment.address,
                    others=[Label(hold.place("range"), "what each thermocouple keeps")],
                )
            )
            continue
        hold, (lowest, highest) = within[0]
        target = hold.target or lowest + (highest - lowest) / 2
        if not low <= target <= high:
            case.add(
                RULE.found(
                    f"the hold is set to {target.both()}, outside the {low.both()} to "
                    f"{high.both()} of its mean",
                    mean.place("range"),
                    address=treatment.address,
                    others=[Label(hold.place(), "the hold")],
                )
            )


def _ends(held: Interval) -> tuple[Quantity, Quantity]:
    assert held.low is not None and held.high is not None
    return held.low, held.high
