"""A preheat measured by thermocouple has one that is recorded or placed."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_PROBE = "measured by       contact probe"
_WIRE = "measured by       thermocouple"
_UNTIL = "  keep until        end"

RULE = Rule(
    "P131",
    "preheat-thermocouple-unknown",
    "warning",
    summary="A preheat said to be measured by thermocouple, or recorded, which no thermocouple of "
    "the joint monitors and no recorder takes down.",
    why="Nobody attaches it: the paper promises a reading that nothing gives.",
    fix="Add a thermocouple that monitors preheat, name the recorder, or name the instrument that "
    "is really used.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_PROBE, _WIRE),), at="thermocouple"),
        Bad(((_UNTIL, f"  recorded by       R1\n{_UNTIL}"),), at="recorded by"),
    ),
    good=(
        Good(
            ((_PROBE, _WIRE), (_UNTIL, f"  recorded by       R1\n{_UNTIL}")),
        ),
    ),
    agrees=(
        Agreement(
            "preheat.measured by.how",
            "joint.thermocouples.thermocouple.monitors",
            "a thermocouple is there, or a recorder",
        ),
        Agreement("preheat.recorded by", "preheat.measured by.how", "a thermocouple is recorded"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound or not preheat.measured:
        return
    wire = next((way for way in preheat.measured if way.how == "thermocouple"), None)
    watched = any(tc.entry.monitors == "preheat" for tc in joint.thermocouples)
    if wire is not None and not watched and preheat.recorded_by is None:
        message = (
            f"the preheat of {joint.name} is measured by thermocouple; none monitors it, and no "
            "recorder takes it down"
        )
        at = wire.place("how")
    elif wire is None and not watched and preheat.recorded_by is not None and _reads(joint):
        # A controller measures by thermocouples of its own.
        if preheat.controlled_by is not None:
            return
        message = (
            f"{preheat.recorded_by.name} records the preheat of {joint.name}, and no thermocouple "
            "measures it"
        )
        at = preheat.place("recorded_by")
    else:
        return
    case.add(RULE.found(message, at, address=f"{joint.address}/preheat", basis=RULE.basis))


def _reads(joint: Joint) -> bool:
    """Whether what is named is held in the hand; that crayons give no signal is told by itself."""
    ways = joint.preheat.measured if joint.preheat is not None else []
    return bool(joint.thermocouples) and any(
        way.how != "temperature-indicating crayon" for way in ways
    )
