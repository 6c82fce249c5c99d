"""Where thermocouples watch preheat, they watch it on both sides of the weld."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.apart import along
from hts.language.model.joint import MONITORS, Joint

_T6 = "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
_PROBE = "  measured by       contact probe"


def _watched(second: str) -> tuple[tuple[str, str], ...]:
    return (
        (
            _T6,
            f"{_T6}    T9   monitors preheat at 3:00, 80 mm upstream channel 9\n"
            f"    T10  monitors preheat at 9:00, 80 mm {second} channel 10\n",
        ),
        (_PROBE, f"  measured by       thermocouple\n{_PROBE}"),
        ("  keep until        end", "  recorded by       R1\n  keep until        end"),
    )


RULE = Rule(
    "P133",
    "preheat-watched-on-one-side",
    "advice",
    summary="Two or more thermocouples that watch the preheat, all on one side of the weld.",
    why="The other side, a thicker part or one in the draught, is welded cold and no reading "
    "shows it.",
    fix="Put one on the other side, too.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(_watched("upstream"), at="upstream"),),
    good=(Good(_watched("downstream")),),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.monitors",
            "joint.thermocouples.thermocouple.offset",
            "preheat is watched on both sides",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    watching = [
        tc for tc in joint.thermocouples if tc.duty == MONITORS and tc.entry.monitors == "preheat"
    ]
    if len(watching) < 2 or not goes_round(joint) or len(joint.sides) < 2:
        return
    places = [along(tc) for tc in watching]
    found = {(place[0], place[1] > 0) for place in places if place is not None}
    first = watching[0]
    if None in places or len(found) != 1 or first.entry.offset is None:
        return
    case.add(
        RULE.found(
            f"the preheat of {joint.name} is watched only {first.entry.offset.side}",
            first.place("offset"),
            address=f"{joint.address}/thermocouples",
            basis=RULE.basis,
        )
    )
