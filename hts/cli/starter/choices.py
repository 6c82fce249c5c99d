"""What a first specification is written from."""

from __future__ import annotations

from typing import NamedTuple

METHODS = ("resistance", "induction")
AXES = ("horizontal", "vertical")
UNITS = ("SI", "US")
#: The kinds of weld offered, in words.
KINDS = {
    "butt": "girth butt weld",
    "branch": "branch on a pipe",
    "nozzle": "nozzle on a shell",
    "socket": "socket weld",
}
#: The codes offered, with the edition that is written; the book of local heating goes with them.
BOOKS = {"asme-b31.1": "2018", "asme-b31.3": "2018"}


class Temperatures(NamedTuple):
    """In one system of units: minimum preheat, highest interpass, ends of the hold range."""

    preheat: int
    interpass: int
    low: int
    high: int


class Family(NamedTuple):
    """A family of steels as a usual grade stands for it.

    The hold ranges lie within those that ASME B31.1-2018 and B31.3-2018 give the P-number (from
    memory; the books say so), with room to both ends; preheat and interpass are common practice.
    ``filler`` is a usual electrode of AWS A5.5 (A5.1 for carbon steel), from memory.
    Whatever stands here is checked by the books when a text is made from it. ``transforms``: the
    weld is cooled until it has transformed before it is tempered. ``waits``: it hardens so that how
    long it may stand before its treatment is stated.
    """

    title: str
    grade: str
    filler: str
    si: Temperatures
    us: Temperatures
    transforms: bool = False
    waits: bool = False


FAMILIES = {
    "carbon": Family(
        "carbon steel",
        "A106-B",
        "E7018",
        Temperatures(95, 315, 605, 645),
        Temperatures(200, 600, 1120, 1190),
    ),
    "0.5Mo": Family(
        "0.5Mo steel",
        "A335 P1",
        "E7018-A1",
        Temperatures(95, 315, 605, 645),
        Temperatures(200, 600, 1120, 1190),
    ),
    "1.25Cr": Family(
        "1.25Cr-0.5Mo steel",
        "A335 P11",
        "E8018-B2",
        Temperatures(150, 315, 665, 695),
        Temperatures(300, 600, 1230, 1280),
    ),
    "2.25Cr": Family(
        "2.25Cr-1Mo steel",
        "A335 P22",
        "E9018-B3",
        Temperatures(180, 315, 700, 730),
        Temperatures(360, 600, 1295, 1345),
    ),
    "5Cr": Family(
        "5Cr-0.5Mo steel",
        "A335 P5",
        "E8018-B6",
        Temperatures(200, 315, 705, 735),
        Temperatures(400, 600, 1305, 1355),
        waits=True,
    ),
    "9Cr": Family(
        "9Cr-1Mo steel",
        "A335 P9",
        "E8018-B8",
        Temperatures(200, 315, 705, 735),
        Temperatures(400, 600, 1305, 1355),
        waits=True,
    ),
    "9Cr-V": Family(
        "9Cr-1Mo-V steel",
        "A335 P91",
        "E9015-B91",
        Temperatures(210, 315, 740, 760),
        Temperatures(410, 600, 1365, 1400),
        transforms=True,
        waits=True,
    ),
}


class Choices(NamedTuple):
    """The answers. ``day`` is the day of issue (ISO date)."""

    day: str
    material: str = "2.25Cr"
    nps: str = "12"
    schedule: str = "120"
    method: str = "resistance"
    book: str = "asme-b31.3"
    axis: str = "horizontal"
    units: str = "SI"
    number: str = "HT-0001"
    joint: str = "W1"
    title: str = ""
    kind: str = "butt"
    #: What a branch stands on: NPS and schedule of the run.
    run: str = "16"
    run_schedule: str = "100"
    #: What a nozzle stands on: outside diameter and wall of the shell.
    shell: str = "1200 mm"
    shell_wall: str = "25 mm"
    bake: bool = False

    @property
    def joints(self) -> tuple[str, ...]:
        """The names of the welds; those after the first are written like it."""
        return tuple(name.strip() for name in self.joint.split(",") if name.strip())

    @property
    def family(self) -> Family:
        return FAMILIES[self.material]
