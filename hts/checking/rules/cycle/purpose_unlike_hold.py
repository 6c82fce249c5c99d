"""A treatment is held where its purpose wants it."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.metals import FERRITIC, p_numbers
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

_PURPOSE = "  purpose             stress relief"
_HELD = (
    "  expansion  free\n",
    '  expansion  free\n  already heated 1 h at 690 degC "shop stress relief"\n',
)

RULE = Rule(
    "Y124",
    "purpose-unlike-hold",
    "warning",
    summary="A purpose above the lower critical temperature for a hold below it, the other way "
    "round, or a repeated stress relief of a weld that was never heated before.",
    why="Normalizing and solution treatment turn the structure over, stress relief and tempering "
    "must not: with the wrong word the wrong program is taken, or time before is not counted.",
    fix="Correct the purpose or the hold; state `already heated` for what came before.",
    source="common practice: no ferritic steel is normalized below 830 degC, none stress relieved "
    "above 830 degC",
    basis="practice",
    bad=(
        Bad(
            ((_PURPOSE, "  purpose             normalizing"),),
            at="normalizing",
            says="up to 730 degC (1346 degF)",
        ),
        Bad(((_PURPOSE, "  purpose             repeated stress relief"),), at="repeated"),
    ),
    good=(Good(((_PURPOSE, "  purpose             repeated stress relief"), _HELD)),),
)

_AUSTENITE = Quantity.of(830, "degC", TEMPERATURE)
#: Beyond, the unit is wrong, which is told as that.
_WRONG = Quantity.of(1200, "degC", TEMPERATURE)
_ABOVE = ("normalizing", "normalize and temper", "solution treatment")
_BELOW = ("stress relief", "intermediate stress relief", "repeated stress relief", "tempering")


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle, joint = treatment.cycle, treatment.joint
    if cycle is None or cycle.purpose is None:
        return
    limits = case.limits(joint, treatment)
    holds = [segment for segment in cycle.segments if isinstance(segment, Hold)]
    ranges = [(hold, each) for hold in holds if (each := limits.hold_range(hold)) is not None]
    tops = [(hold, each.high) for hold, each in ranges if each.high is not None]
    hottest = max(tops, key=lambda found: found[1].value, default=None)
    message, others = "", list[Label]()
    first = not joint.entry.earlier and len(joint.cycles) < 2
    if cycle.purpose == "repeated stress relief" and first:
        message = f"{joint.name} was not heated before"
    if hottest is not None and set(p_numbers(joint)) <= set(FERRITIC):
        hold, top = hottest
        if (cycle.purpose in _ABOVE and top < _AUSTENITE) or (
            cycle.purpose in _BELOW and _AUSTENITE < top < _WRONG
        ):
            message = f"{joint.name} is held at up to {top.both()}"
            others = [Label(hold.place("range"), "the hold")]
    if message:
        case.add(
            RULE.found(
                f"{message}: that is not {cycle.purpose}",
                cycle.place("purpose"),
                address=treatment.address,
                others=others,
                basis=RULE.basis,
            )
        )
