"""Where the text limits a rate, the rate is controlled and recorded."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import broken
from hts.checking.rules.helpers.steps import backwards, steps
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool, Heat

#: 315 degC and 600 degF are meant alike.
_ROUNDING = Quantity.of(1, "K", DIFFERENCE)

RULE = Rule(
    "Y120",
    "rate-outside-control",
    "warning",
    summary="A step whose rate is limited at temperatures where control has not begun, or is over.",
    why="The text limits the rate there, but no controller keeps it and no chart shows it.",
    fix="Begin and end control where the limited rates begin and end, or outside.",
    source="arithmetic: start and end of control against the steps whose rate is limited",
    basis="derived",
    edges=(
        Edge(
            (("start of control    300 degC", "start of control    {}"),),
            keeps="316 degC",
            breaks="317 degC",
            says="from 315 degC (599 degF) … 317 degC (603 degF)",
        ),
        Edge(
            (("end of control      300 degC", "end of control      {}"),),
            keeps="316 degC",
            breaks="317 degC",
            says="to 315 degC (599 degF) … 317 degC (603 degF)",
        ),
    ),
    bad=(
        Bad(
            (("  start of control  150 degC", "  start of control  320 degC"),),
            at="320 degC",
            base="bake",
            says="from 315 degC (599 degF) … 320 degC (608 degF)",
        ),
    ),
    good=(Good((("start of control    300 degC", "start of control    316 degC"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry, limits = treatment.entry, case.limits(treatment.joint, treatment)
    for step in steps(case, treatment):
        segment = step.segment
        if not isinstance(segment, Heat | Cool) or segment.rate is None or backwards(step):
            continue
        heating = isinstance(segment, Heat)
        field, words = ("start_control", "start") if heating else ("end_control", "end")
        control: Quantity | None = getattr(entry, field)
        lowest = step.low if heating else step.end
        if heating and lowest is None and segment is entry.segments[0]:
            lowest = _comes_from(case, treatment)
        if control is None or lowest is None:
            continue
        counted = (segment.above, _counts_from(limits, "heating" if heating else "cooling"))
        lowest = max([lowest, *(one for one in counted if one is not None)])
        governing = limits.of(f"{words} of control")
        if control <= lowest + _ROUNDING:
            continue
        if not treatment.is_bake and governing and broken(governing, "maximum", control):
            continue  # told as too high already
        case.add(
            RULE.found(
                f"the rate is limited {'from' if heating else 'down to'} {lowest.both()}, and "
                f"control {'begins' if heating else 'ends'} at {control.both()}",
                treatment.place(field),
                address=treatment.address,
                others=[Label(segment.place("rate"), "the rate")],
            )
        )


def _comes_from(case: Case, treatment: Treatment) -> Quantity | None:
    """How hot the weld is that is not let cool before."""
    preheat = treatment.joint.preheat
    if preheat is None or getattr(treatment.entry, "begins", None) != "from preheat":
        return None
    return preheat.maintain or case.limits(treatment.joint).preheat()


def _counts_from(limits: JointLimits, words: str) -> Quantity | None:
    """The temperature from which what governs limits the rate; None where it names none."""
    governing = limits.of(f"{words} rate")
    from_on = [demand.above for demand in governing.demands] if governing is not None else []
    stated = [above for above in from_on if above is not None]
    return min(stated) if stated and len(stated) == len(from_on) else None
