"""A share of the hold temperature is shown by a thermocouple at its place."""

from __future__ import annotations

from hts.base.quantities import RATIO, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import MONITORS, Treatment
from hts.language.vocabulary.allowances import Share

_LINE = "  rate margin  "
#: The edge of the heaters runs at about half the hold; common practice, no source.
_HOTTEST = Quantity.of(90, "%", RATIO)

RULE = Rule(
    "Y123",
    "share-unmeasured",
    "error",
    summary="A share of the hold temperature is asked for at a place that no thermocouple "
    "monitors, or one that no place has: its least is above its greatest, the soak edge has it in any case, "
    "or the edge of the heaters cannot have it.",
    why="Nobody can tell afterwards how steep the slope of temperature beside the weld was.",
    fix="Add a thermocouple that monitors the place, on each side of the weld.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_LINE, f"  share of hold at least 50 % at gradient edge\n{_LINE}"),),
            at="gradient edge",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    "  rate margin  ",
                    "  share of hold at least 60 % at most {} at heated edge\n  rate margin  ",
                ),
            ),
            keeps="60 %",
            breaks="59 %",
            says="at most 59 % … at least 60 %",
        ),
        # The lowest that is held over the highest: 700 over 730.
        Edge(
            ((_LINE, f"  share of hold at least {{}} at soak edge\n{_LINE}"),),
            keeps="96 %",
            breaks="95 %",
            at="soak edge",
            says="at least 95 % at the soak edge asks for nothing … at least 95.89 %",
        ),
        Edge(
            ((_LINE, f"  share of hold at least {{}} at heated edge\n{_LINE}"),),
            keeps="90 %",
            breaks="91 %",
            says="at least 91 % … at most 90 %",
        ),
    ),
    good=(
        Good(((_LINE, f"  share of hold at least 50 % at heated edge\n{_LINE}"),)),
        Good(((_LINE, f"  share of hold at most 95 % at heated edge\n{_LINE}"),)),
        Good(((_LINE, f"  share of hold at most 100 % at soak edge\n{_LINE}"),)),
    ),
    agrees=(
        Agreement("cycle.share of hold.at", "joint.thermocouples.thermocouple.monitors", "alike"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    watched = {tc.entry.monitors for tc in treatment.joint.thermocouples if tc.duty == MONITORS}
    for share in treatment.entry.shares:
        if share.place_ is not None and share.place_ not in watched:
            case.add(
                RULE.found(
                    f"no thermocouple of {treatment.joint.name} monitors the {share.place_}",
                    share.place("place_"),
                    address=treatment.address,
                )
            )
        if share.least is not None and share.most is not None and share.most < share.least:
            case.add(
                RULE.found(
                    f"at most {share.most} is less than at least {share.least}",
                    share.place("most"),
                    address=treatment.address,
                )
            )
        if share.least is None or not share.sound:
            continue
        edge = share.place_ == "soak edge"
        told = _had_anyway(case, treatment, share) if edge else _beyond(treatment, share)
        if told:
            at = share.place("place_" if edge else "least")
            case.add(RULE.found(told, at, address=treatment.address, basis=RULE.basis))


def _had_anyway(case: Case, treatment: Treatment, share: Share) -> str:
    """Whoever is within the hold has this share of the lowest that is held, too."""
    held = [hold for _, hold in holds(case, treatment)]
    if share.least is None or share.most is not None or not held:
        return ""
    shares = []
    for hold in held:
        assert hold.low is not None and hold.high is not None
        if hold.high.to("degC") <= 0:
            return ""
        shares.append(hold.low.to("degC") / hold.high.to("degC") * 100)
    had = Quantity.of(min(shares), "%", RATIO)
    if share.least > had:
        return ""
    return (
        f"at least {share.least} at the soak edge asks for nothing: it is held as the weld is, which "
        f"is at least {had}"
    )


def _beyond(treatment: Treatment, share: Share) -> str:
    """No edge of the heaters of a part of the pipe is nearly as hot as what is held."""
    heating = treatment.joint.entry.heating
    if share.least is None or heating is None or heating.method == "furnace":
        return ""
    if share.least <= _HOTTEST:
        return ""
    return (
        f"at least {share.least} at the {share.place_}: heat flows away there, and it reaches at most "
        f"{_HOTTEST} or so"
    )
