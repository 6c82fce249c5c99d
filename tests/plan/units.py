"""Work of a plan, made up for tests: a cycle of a weld, and what a plan is made under."""

from __future__ import annotations

from hts.plan.timetable import Terms
from hts.plan.work import Machine, Unit

HOUR = 3600


def unit(
    name: str,
    *,
    controller: str = "C1",
    recorder: str = "R1",
    loops: int = 2,
    inputs: int = 8,
    watts: int | None = 20_000,
    hours: float = 6,
    within: int | None = None,
    treatment: str = "sr",
    keeper: str | None = None,
) -> Unit:
    return Unit(
        (name,),
        treatment,
        (treatment, hours),
        int(hours * HOUR),
        Machine(controller, 6),
        Machine(recorder, 24),
        Machine("PS1", None, 65_000, 6),
        loops,
        inputs,
        loops,
        watts,
        within,
        keeper is not None,
        keeper or "",
    )


def terms(crews: int | None = None, ready: dict[str, int] | None = None) -> Terms:
    return Terms(2 * HOUR, HOUR, crews, ready or {})


def at(seconds: int) -> str:
    return f"{seconds // HOUR} h"
