"""Preheat is measured in a way that can show it."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

_T6 = "    T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"

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
            (("from 0 degC to 400 degC", "from 0 degF to 400 degC"),),
            at="0 degF",
            says="from 0 degF to 400 degC",
        ),
        Bad(
            ((_T6, f"{_T6}    T9   monitors preheat at 6:00, 80 mm upstream channel 9\n"),),
            at="contact probe",
        ),
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
        Bad(
            (("from 0 degC to 400 degC", "from 0 degC to 300 degC"),),
            at="315 degC",
            says="of 315 degC (599 degF)",
        ),
        Bad(
            (("from 0 degC to 400 degC", "from 200 degC to 400 degC"),),
            at="150 degC",
            says="of 150 degC (302 degF)",
        ),
    ),
    good=(
        Good(
            (
                (
                    "from 0 degC to 400 degC",
                    "from 0 degC to 200 degC\n"
                    "  measured by temperature-indicating crayon at 76 mm from 315 degC to 315 degC",
                ),
            )
        ),
    ),
    edges=(
        Edge(
            (("from 0 degC to 400 degC", "from 0 degC to {}"),),
            keeps="315 degC",
            breaks="314 degC",
            at="315 degC",
            says="of 315 degC (599 degF)",
        ),
        Edge(
            (("from 0 degC to 400 degC", "from {} to 400 degC"),),
            keeps="150 degC",
            breaks="151 degC",
            at="150 degC",
            says="of 150 degC (302 degF)",
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
    if _contradicts(case, joint, address):
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


def _contradicts(case: Case, joint: Joint, address: str) -> bool:
    """Tells where a thermocouple that watches is left out, or a range is in two units."""
    preheat = joint.preheat
    assert preheat is not None
    ways = [way for way in preheat.measured if way.how == "thermocouple"]
    watching = [tc for tc in joint.thermocouples if tc.entry.monitors == "preheat"]
    message = ""
    if watching and not ways:
        message = (
            f"{watching[0].tag} monitors the preheat, which no thermocouple is said to measure"
        )
        at = preheat.measured[0].place("how")
    for way in preheat.measured:
        low, high = way.lowest, way.highest
        if low is None or high is None or low.unit.symbol == high.unit.symbol:
            continue
        # A figure turned into the other unit on purpose is a round one there.
        if low.to(high.unit.symbol) % 5 and high.to(low.unit.symbol) % 5:
            message = f"{way.how} reads from {low} to {high}: two units in one range"
            at = way.place("lowest")
    if message:
        case.add(RULE.found(message, at, address=address, basis="practice"))
    return bool(message)
