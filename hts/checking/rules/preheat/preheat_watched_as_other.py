"""What stands where the preheat is watched watches the preheat."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import from_weld, goes_round
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import MONITORS, Joint

_T6 = "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
_PROBE = "  measured by       contact probe"


def _watched(first: str, second: str) -> tuple[tuple[str, str], ...]:
    return (
        (
            _T6,
            f"{_T6}    T9   monitors {first} at 3:00, 80 mm upstream channel 9\n"
            f"    T10  monitors {second} at 9:00, 80 mm downstream channel 10\n",
        ),
        (_PROBE, f"  measured by       thermocouple\n{_PROBE}"),
        ("  keep until        end", "  recorded by       R1\n  keep until        end"),
    )


RULE = Rule(
    "P143",
    "preheat-watched-as-other",
    "warning",
    summary="A thermocouple that watches the base metal as far from the weld as the only one that "
    "watches the preheat, on the other side.",
    why="It was placed for the preheat, and nobody reads it before the arc: one place alone stands for "
    "the whole weld.",
    fix="Write `monitors preheat`, or put it where the base metal is watched.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _watched("preheat", "base metal"),
            at="base metal",
            says="T10 watches the base metal 80 mm downstream",
        ),
    ),
    good=(Good(_watched("preheat", "preheat")),),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.monitors",
            "preheat.measured by",
            "what stands where preheat is watched watches it",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if joint.preheat is None or not goes_round(joint):
        return
    watching = [tc for tc in joint.thermocouples if tc.duty == MONITORS]
    preheat = [tc for tc in watching if tc.entry.monitors == "preheat"]
    place = preheat[0].entry.offset if len(preheat) == 1 else None
    if place is None:
        return
    known = preheat[0]
    for tc in watching:
        offset = tc.entry.offset
        if tc.entry.monitors != "base metal" or offset is None:
            continue
        if from_weld(tc) == from_weld(known) and offset.side != place.side:
            case.add(
                RULE.found(
                    f"{tc.tag} watches the base metal {offset.distance} {offset.side}, as far as "
                    f"{known.tag} watches the preheat on the other side",
                    tc.place("monitors"),
                    address=tc.address,
                    others=[Label(known.place("monitors"), "the preheat")],
                    basis=RULE.basis,
                )
            )
