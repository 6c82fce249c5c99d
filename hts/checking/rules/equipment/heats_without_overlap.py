"""A part that goes into the furnace in turns is heated twice where they meet."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint


def _furnace(technique: str, furnace: str) -> tuple[tuple[str, str], ...]:
    return (
        ("heating by resistance", "heating by furnace"),
        (
            "    ends           closed",
            f"    technique {technique}\n    furnace {furnace}\n    ends           closed",
        ),
    )


RULE = Rule(
    "E121",
    "heats-without-overlap",
    "warning",
    summary="A part heated in several heats in a furnace without a word on the length heated twice.",
    why="What lies at the door in both heats is never at temperature; and if it goes in whole, the technique is that of "
    "another part.",
    fix="State the overlap, or the technique as it is.",
    source="ASME BPVC VIII-1 UW-40 (from memory): heats overlap by 5 ft (1.5 m) at least",
    basis="memory",
    bad=(
        Bad(
            _furnace("in several heats", '"Furnace 1"'),
            at="in several heats",
            says="W12 is heated in several heats, and nothing says how far they overlap",
        ),
    ),
    good=(Good(_furnace("in several heats", '"Furnace 1" overlap 1.5 m')),),
    agrees=(
        Agreement("joint.heating.technique", "joint.heating.furnace.overlap", "stated for several"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.technique != "in several heats" or heating.furnace is None:
        return
    if heating.furnace.overlap is None and heating.furnace.sound:
        case.add(
            RULE.found(
                f"{joint.name} is heated in several heats, and nothing says how far they overlap",
                heating.place("technique"),
                address=f"{joint.address}/heating",
                basis=RULE.basis,
            )
        )
