"""Thermocouples come off when the insulation over them is off."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_AFTER = "controller C1 {"
_STRIP = (
    "  rate margin         10 %",
    "  rate margin         10 %\n  remove insulation below 80 degC",
)


def _off(below: str) -> tuple[tuple[str, str], ...]:
    entries = f"  remove thermocouples below {below}\n  hardness weld at most 241 HBW count 3\n"
    return (_STRIP, (_AFTER, f"after heat W12 {{\n{entries}}}\n\n{_AFTER}"))


RULE = Rule(
    "K123",
    "thermocouples-off-before-insulation",
    "warning",
    summary="Thermocouples that may come off hotter than the insulation over them.",
    why="They lie under it: whoever takes them off opens the insulation on metal that burns, and what "
    "still cools is no longer measured.",
    fix="Let them come off no hotter than the insulation.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            _off("{}"),
            keeps="80 degC",
            breaks="81 degC",
            says="at 81 degC (178 degF) … at 80 degC (176 degF)",
        ),
    ),
    good=(Good(_off("50 degC")),),
    agrees=(
        Agreement(
            "after heat.remove thermocouples below", "cycle.remove insulation below", "no hotter"
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    stripped = [
        (treatment, treatment.entry.strip_below)
        for treatment in joint.cycles
        if treatment.entry.strip_below is not None
    ]
    for block in joint.after:
        off = block.removed_at if block.sound else None
        if off is None or not stripped:
            continue
        last, bare = stripped[-1]
        if off > bare:
            case.add(
                RULE.found(
                    f"the thermocouples of {joint.name} come off at {off.both()}, the insulation over "
                    f"them at {bare.both()}",
                    block.place("removed_at"),
                    address=f"{joint.address}/after-heat",
                    others=[Label(last.place("strip_below"), "the insulation")],
                    basis=RULE.basis,
                )
            )
