"""What is done where thermocouples were attached is said."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_SPOTS = '  thermocouple spots "Ground flush, MT"\n'


def _after(lines: str) -> tuple[tuple[str, str], ...]:
    block = f'after heat W12 {{\n  examine "MT" extent "100 %" after 24 h\n{lines}}}\n\n'
    return (("controller C1 {", block + "controller C1 {"),)


RULE = Rule(
    "K116",
    "spots-left-out",
    "advice",
    summary="Work after heat that does not say what is done with the spots where thermocouples were "
    "attached.",
    why="Each spot is a hard, quenched point in the metal; left as it is, it is where a crack begins.",
    fix='Write `thermocouple spots "Ground flush, MT"`, or what the owner asks for.',
    source="ASME B31.3-2012 330.1.3: the area is examined once the thermocouples are off",
    basis="published",
    bad=(Bad(_after(""), at="capacitor discharge"),),
    good=(
        Good(_after(_SPOTS)),
        Good(_after('  check "Spots of thermocouples ground, MT" about surface condition\n')),
    ),
    agrees=(
        Agreement(
            "after heat.thermocouple spots", "joint.thermocouples.attached", "stated with it"
        ),
    ),
)
#: Words of a check or an examination that is about them.
_ABOUT = ("spot", "thermocouple")


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if attached is None or attached.how != "capacitor discharge" or not joint.thermocouples:
        return
    if not joint.after or not treated(joint) or not all(after.sound for after in joint.after):
        return
    for after in joint.after:
        texts = [item.text for item in (*after.checks, *after.hold_points)]
        if after.spots is not None or after.says("spots"):
            return
        if any(word in text.lower() for text in texts for word in _ABOUT):
            return
    case.add(
        RULE.found(
            f"nothing after heat of {joint.name} is said of the spots where thermocouples were "
            "attached",
            attached.place("how"),
            address=f"{joint.address}/after-heat",
            others=[Label(joint.after[0].place(), "the work after heat")],
        )
    )
