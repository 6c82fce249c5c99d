"""Preheat, bake and heat treatment of a first specification."""

from __future__ import annotations

from typing import NamedTuple

from hts.cli.starter.choices import Choices
from hts.cli.starter.words import words_of


class Soaked(NamedTuple):
    """How a weld is baked: the hours of the hold, and by how much slower than usual it is heated.
    Common practice, no source; what books and the welding engineer ask for comes before it."""

    hours: int = 4
    slower: int = 1

    def longer(self) -> Soaked:
        return self._replace(hours=self.hours + 4)

    def more_slowly(self) -> Soaked:
        return self._replace(slower=self.slower * 2)


USUALLY = Soaked()


#: How long a weld that hardens may stand before it is treated. Common practice, no source.
WAIT = "24 h"


def treatment(choices: Choices, soaked: Soaked) -> str:
    """The blocks of preheat, bake where one is wanted, and cycle."""
    words = words_of(choices)
    t = choices.family.us if choices.units == "US" else choices.family.si
    joints = ", ".join(choices.joints)
    for_each = " ".join(f"for {name}" for name in choices.joints)
    cold = f"  first cool below {words.transformed}\n" if choices.family.transforms else ""
    waits = f"  begin within {WAIT}\n" if choices.family.waits else ""
    purpose = "tempering" if choices.family.transforms else "stress relief"
    return f"""\
preheat {joints} {{
  at least {t.preheat} {words.degree}
  interpass at most {t.interpass} {words.degree}
  width {words.near} each side
  method {choices.method}
  measured by contact probe at {words.near} on face toward the welder from {words.probe}
  when interrupted {"bake before cooling" if choices.bake else "cool slowly and preheat again"}
  keep until {"bake" if choices.bake else "end of welding"}
}}
{_bake(choices, t.preheat, joints, soaked)}
cycle {purpose.replace(" ", "-")} {for_each} {{
  purpose {purpose}
{cold}{waits}  recorded by R1
  controlled by C1
  powered by PS1
  start of control {words.control_from}
  heat to {words.free_below}
  heat to {(t.low + t.high) // 2} {words.degree} at most by rule
  hold {t.low} .. {t.high} {words.degree} for by rule
  cool to {words.free_below} at most by rule
  cool in still air
  end of control {words.control_from}
  rate margin 10 %
  heating spread at most {words.spread}
  hold counts while all in range
  interrupted hold adds up
  sensor break upscale
  on power loss resume at the present temperature
  on thermocouple loss change to the spare
}}
"""


#: A bake as it is usual for every metal offered: hold, begin, rate and end of it, by system of
#: units. Common practice, no source; what books and the welding engineer ask for comes before it.
_BAKES = {
    "SI": ("300 .. 350 degC", "325 degC", 100, "degC/h", "80 degC", "100 mm"),
    "US": ("575 .. 660 degF", "620 degF", 180, "degF/h", "180 degF", "4 in"),
}


def _bake(choices: Choices, preheat: int, joints: str, soaked: Soaked) -> str:
    if not choices.bake:
        return ""
    words = words_of(choices)
    hold, to, fast, per_hour, end, width = _BAKES[choices.units]
    rate = f"at most {fast // soaked.slower} {per_hour}"
    return f"""
bake {joints} {{
  begins from preheat
  width {width} each side
  lining none
  recorded by R1
  controlled by C1
  powered by PS1
  start of control {preheat} {words.degree}
  heat to {to} {rate}
  hold {hold} for {soaked.hours} h
  cool to {end} {rate}
  end of control {end}
  test after 48 h
  hold counts while all in range
  interrupted hold adds up
  sensor break upscale
  on power loss resume at the present temperature
  on thermocouple loss change to the spare
}}
"""
