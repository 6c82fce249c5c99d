"""Preheat is measured in a way that can show it."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "P105",
    "unmeasured-preheat",
    "warning",
    summary="A preheat or interpass temperature that none of the instruments named can show.",
    why="Where no instrument shows it, welders go by hand and eye.",
    fix="Name an instrument whose range reaches from the preheat to the interpass temperature.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "  measured by       contact probe at 76 mm on face toward the welder "
                    "from 0 degC to 400 degC\n",
                    "",
                ),
            ),
            at="W12",
        ),
        Bad((("from 0 degC to 400 degC", "from 0 degC to 300 degC"),), at="315 degC"),
        Bad((("from 0 degC to 400 degC", "from 200 degC to 400 degC"),), at="150 degC"),
    ),
    good=(
        Good(
            (
                (
                    "from 0 degC to 400 degC",
                    "from 0 degC to 200 degC\n"
                    "  measured by temperature-indicating crayon from 315 degC to 315 degC",
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound:
        return
    address = f"{joint.address}/preheat"
    if not preheat.measured:
        watched = any(tc.entry.monitors == "preheat" for tc in joint.thermocouples)
        if not watched and preheat.recorded_by is None:
            case.add(
                RULE.found(
                    f"nothing says how the preheat of {joint.name} is measured",
                    preheat.place("joints"),
                    address=address,
                )
            )
        return
    limits = limits_of(case, joint)
    for value, at, what in (
        (limits.preheat(), preheat.place("at_least"), "preheat"),
        (
            limits.interpass(),
            preheat.interpass.place("at_most") if preheat.interpass is not None else None,
            "interpass temperature",
        ),
    ):
        if value is None or at is None:
            continue
        if not any(
            (way.lowest is None or way.lowest <= value)
            and (way.highest is None or way.highest >= value)
            for way in preheat.measured
        ):
            case.add(
                RULE.found(
                    f"nothing named here can show the {what} of {value.both()}", at, address=address
                )
            )
            return
