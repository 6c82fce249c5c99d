"""What holds where a text does not say: saying it, or leaving it out, changes nothing.

The vocabulary tells of each in its words (`outside unless said`); a test holds the two together.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from hts.base.quantities import Interval, Quantity
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.segments import Cool, Heat, Hold

#: Path into the vocabulary -> the one spelling of what holds unless said.
UNSAID: Mapping[str, str] = {
    "joint.datum": "top",
    "joint.heating.heater.count": "1",
    "joint.heavy section.bore": "same bore",
    "joint.test plate.heated": "heated with the joint",
    "joint.thermocouples.channel offset": "0",
    "joint.thermocouples.thermocouple.surface": "outside",
    **{
        f"{treatment}.{path}": value
        for treatment in ("cycle", "bake")
        for path, value in (
            ("interrupted hold", "starts again"),
            ("guard band.rule", "none"),
            ("excursion.in total", "yes"),
            ("rate excursion.in total", "yes"),
        )
    },
}


def target(steps: Sequence[Entry], hold: Hold) -> Quantity | None:
    """The setpoint of a hold that states none: where the step before goes to, if that is inside
    the range; else the middle of it. None where the range is by rule."""
    inside = hold.range
    if not isinstance(inside, Interval) or inside.low is None or inside.high is None:
        return None
    number = next((n for n, step in enumerate(steps) if step is hold), 0)
    before = steps[number - 1] if number else None
    if isinstance(before, Heat | Cool) and before.to and inside.low < before.to < inside.high:
        return before.to
    return inside.low + (inside.high - inside.low) / 2
