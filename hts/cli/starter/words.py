"""The values of a first specification that depend on the system of units, ready to be written.

Common practice, no source; whatever stands here is checked when a text is made from it.
"""

from __future__ import annotations

from typing import NamedTuple

from hts.cli.starter.choices import Choices


class Words(NamedTuple):
    """What depends on the system of units, ready to be written."""

    show: str
    degree: str
    length: str
    free_below: str
    control_from: str
    transformed: str
    wire: str
    rate: str
    spread: str
    far: str
    near: str
    thick: str
    probe: str
    scale: str
    error: str
    junction: str
    legs: str
    lead: str
    standard: str


SI = Words(
    show="SI and US",
    degree="degC",
    length="mm",
    free_below="315 degC",
    control_from="300 degC",
    transformed="93 degC",
    wire="class 1",
    rate="150 degC/h",
    spread="140 K",
    far="1.2 m",
    near="75 mm",
    thick="50 mm",
    probe="0 degC to 400 degC",
    scale="0 .. 1200 degC",
    error="1.0 degC",
    junction="25 degC",
    legs="6 mm",
    lead="1 m",
    standard="IEC 60584-3",
)
US = Words(
    show="US and SI",
    degree="degF",
    length="in",
    free_below="600 degF",
    control_from="570 degF",
    transformed="200 degF",
    wire="class special",
    rate="300 degF/h",
    spread="250 degF",
    far="4 ft",
    near="3 in",
    thick="2 in",
    probe="32 degF to 800 degF",
    scale="32 .. 2200 degF",
    error="2.0 degF",
    junction="77 degF",
    legs="1/4 in",
    lead="4 ft",
    standard="ASTM E230",
)


def words_of(choices: Choices) -> Words:
    return US if choices.units == "US" else SI
