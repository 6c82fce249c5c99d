"""Contact probes are for preheat, and not above 600 degF."""

from __future__ import annotations

from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

_HOTTEST = Quantity.of(600, "degF", TEMPERATURE)
_HIGH = ("  at least          150 degC", "  at least          330 degC")
_INTERPASS = ("interpass         at most 315 degC", "interpass         at most 360 degC")

RULE = Rule(
    "P108",
    "probe-too-hot",
    "warning",
    summary="A preheat above 600 degF (316 degC) that nothing but a contact probe measures.",
    why="Hotter than that, heat lost along the probe makes it read too low.",
    fix="Use thermocouples attached to the metal.",
    source="common practice, no source (600 degF)",
    basis="practice",
    edges=(
        Edge(
            (
                ("  at least          150 degC", "  at least          {}"),
                ("interpass         at most 315 degC", "interpass         at most 360 degC"),
            ),
            keeps="315 degC",
            breaks="316 degC",
            at="contact probe",
            says="316 degC (601 degF) … up to 600 degF (316 degC)",
        ),
    ),
    good=(
        Good(
            (
                _HIGH,
                _INTERPASS,
                (
                    "  measured by       contact",
                    "  measured by thermocouple\n  recorded by R1\n  measured by       contact",
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.measured or preheat.recorded_by is not None:
        return
    least = limits_of(case, joint).preheat()
    if least is None or least <= _HOTTEST:
        return
    if all(way.how == "contact probe" for way in preheat.measured):
        case.add(
            RULE.found(
                f"a contact probe cannot be relied on at {least.both()}; common practice is to "
                f"use it up to "
                "600 degF (316 degC)",
                preheat.measured[0].place("how"),
                address=f"{joint.address}/preheat",
                basis=RULE.basis,
            )
        )
