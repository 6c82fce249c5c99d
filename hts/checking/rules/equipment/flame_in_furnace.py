"""In a furnace of burnt gas no flame strikes the part."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint


def _fired(words: str) -> tuple[tuple[str, str], ...]:
    return (
        ("heating by resistance", "heating by furnace"),
        (
            "    soak band      by rule\n    heated band    by rule\n    gradient band  by rule\n",
            "",
        ),
        (
            "    ends           closed",
            f'    furnace "Furnace 1" uniformity +/- 8 K {words}\n    ends           closed',
        ),
    )


RULE = Rule(
    "E119",
    "flame-in-furnace",
    "warning",
    summary="A furnace whose atmosphere is burnt gas, with nothing said of the flame.",
    why="Where a flame strikes the part it is overheated and scaled by hundreds of degrees, and no "
    "thermocouple sits there.",
    fix="Write `flame kept off`, and see that it is.",
    source="ASME BPVC VIII-1 UCS-56 (no direct flame; from memory)",
    basis="memory",
    bad=(
        Bad(
            _fired("atmosphere burnt gas"),
            at="burnt gas",
            says="Furnace 1 is full of burnt gas, and nothing keeps the flame off W12",
        ),
    ),
    good=(
        Good(_fired("atmosphere burnt gas flame kept off")),
        Good(_fired("atmosphere air")),
    ),
    agrees=(
        Agreement(
            "joint.heating.furnace.atmosphere",
            "joint.heating.furnace.flame kept off",
            "said of burnt gas",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    furnace = heating.furnace if heating is not None else None
    if furnace is None or furnace.atmosphere != "burnt gas" or furnace.flame_kept_off:
        return
    if treated(joint):
        case.add(
            RULE.found(
                f"{furnace.name} is full of burnt gas, and nothing keeps the flame off {joint.name}",
                furnace.place("atmosphere"),
                address=f"{joint.address}/heating",
                basis=RULE.basis,
            )
        )
