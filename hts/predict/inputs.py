"""What a prediction rests on, told: each input with its source and what it may be off by."""

from __future__ import annotations

from typing import NamedTuple

from hts.predict.setting import Setting
from hts.science.field.states import BoreState
from hts.science.field.steels import STEELS


class Input(NamedTuple):
    """An input as it is told: what, its value in words, where it is from, what it may be off by."""

    what: str
    value: str
    source: str
    spread: str = ""


def _bore_words(state: BoreState, horizontal: bool) -> str:
    words = f"{state.name}: {state.mean:.1f} W/m²K on average"
    if horizontal and state.lean:
        words += f", {1 + state.lean:.1f} times as much at the bottom"
    radiates = f", emissivity {state.emissivity:g}" if state.emissivity else ", no radiation across"
    return words + radiates


def inputs_of(setting: Setting) -> list[Input]:
    state, near, far = setting.bore, setting.near, setting.far
    spread = f"{state.low:.1f} to {state.high:.1f} W/m²K"
    walls = " and ".join(
        dict.fromkeys(
            f"{2000 * half.outer:.1f} × {1000 * (half.outer - half.inner):.1f} mm"
            for half in (near, far)
        )
    )
    found = [
        Input("pipe", walls, "the specification"),
        Input(
            "bands",
            f"soak {2000 * setting.soak:.0f}, heated {2000 * setting.heated:.0f}, insulated "
            f"{2000 * setting.insulated:.0f} mm in total",
            "the specification",
        ),
    ]
    for one in setting.bodies:
        thicker = f"{1000 * one.extra:.0f} mm thicker on the {'out' if one.outward else 'in'}side"
        taper = f"taper {1000 * (one.full - one.begins):.0f} mm"
        found.append(
            Input(
                f"heavy section, {one.what}",
                f"{thicker} from {1000 * one.full:.0f} to {1000 * one.ends:.0f} mm, {taper}",
                "the specification",
            )
        )
    for steel in dict.fromkeys((near.steel, far.steel)):
        known = STEELS[steel]
        found.append(
            Input(
                "steel",
                known.material.name,
                known.note,
                f"conductivity ±{100 * known.conductivity_spread:.0f} %, specific heat "
                f"±{100 * known.heat_spread:.0f} % (one standard deviation)",
            )
        )
    found += [
        Input(
            "bore",
            _bore_words(state, setting.horizontal),
            setting.bore_from,
            spread,
        ),
        Input(
            "insulation",
            f"{1000 * setting.blanket:.0f} mm, loss 1.5 times that of an unbroken blanket",
            "catalogue figures, from memory",
            "half to twice",
        ),
        Input("control thermocouples", "at the setpoint", "class, extension and instrument",
              "±2 K each (one standard deviation)"),
    ]  # fmt: skip
    return found
