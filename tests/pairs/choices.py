"""What a complete specification can say otherwise, and what it can say besides.

`FORMS` are alternatives for what the base says, written from the trade's view; `besides` are all
optional entries, clauses and flags the vocabulary has for the blocks and lines of the base. So a
new entry of the language is combined with all others from the day it is declared.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from hts.checking.rules.examples import BASES
from hts.language.vocabulary import (
    cycle,
    equipment,
    heating,
    job,
    joint,
    material,
    preheat,
    segments,
    thermocouples,
)
from hts.language.vocabulary.declare import CLAUSE, FLAG, VALUE, Entry

Change = tuple[str, str]

#: A girth butt preheated, baked out and stress relieved under an owner's procedure.
BASE = BASES["bake"]


class Choice(NamedTuple):
    """One thing said: ``about`` is what it is about, of which a text says one choice at most."""

    about: str
    form: str
    changes: tuple[Change, ...]

    def __str__(self) -> str:
        return f"{self.about}: {self.form}"


_HEAT = "heat  to 715 degC   at most 200 degC/h"
_HOLD = "hold  700 .. 730 degC for 2 h"
_COOL = "  cool  to 315 degC   at most 200 degC/h"
_T1S = "    T1S  spare for T1 "

_ALTERNATIVES: dict[str, dict[str, tuple[Change, ...]]] = {
    "soak band": {
        "in total": (("soak band      by rule", "soak band      100 mm total"),),
        "each side": (("soak band      by rule", "soak band      50 mm each side"),),
        "in inches": (("soak band      by rule", "soak band      4 in total"),),
    },
    "heated band": {
        "in total": (("heated band    by rule", "heated band    660 mm total"),),
        "each side": (("heated band    by rule", "heated band    330 mm each side"),),
        "in inches": (("heated band    by rule", "heated band    26 in total"),),
    },
    "gradient band": {
        "in total": (("gradient band  by rule", "gradient band  1100 mm total"),),
        "each side": (("gradient band  by rule", "gradient band  22 in each side"),),
    },
    "units on paper": {
        "SI alone": (("show         SI and US", "show         SI"),),
        "US alone": (("show         SI and US", "show         US"),),
        "US first": (("show         SI and US", "show         US and SI"),),
    },
    "pipe": {
        "by diameter": (("NPS 12 schedule 120", "outside diameter 323.8 mm"),),
        "in inches": (("NPS 12 schedule 120", "outside diameter 12.75 in"),),
    },
    "wall": {
        "nominal": (("25.4 mm measured", "25.4 mm nominal"),),
        "in inches": (("25.4 mm measured", "1 in measured"),),
        "thicker": (("25.4 mm measured", "26.2 mm measured"),),
    },
    "rate of heating": {
        "by rule": ((_HEAT, "heat  to 715 degC   at most by rule"),),
        "in degF": ((_HEAT, "heat  to 1320 degF  at most 350 degF/h"),),
        "by the minute": ((_HEAT, "heat  to 715 degC   at most 3.3 degC/min"),),
        "two": (
            (
                _HEAT,
                "heat  to 515 degC at most 200 degC/h\n  heat  to 715 degC at most 150 degC/h",
            ),
        ),
    },
    "hold": {
        "by rule": ((_HOLD, "hold  700 .. 730 degC for by rule"),),
        "as a tolerance": ((_HOLD, "hold  715 +/- 15 degC for 120 min"),),
        "in degF": ((_HOLD, "hold  1292 .. 1346 degF for 2 h"),),
        "hotter": ((_HOLD, "hold  705 .. 735 degC for 3 h"),),
    },
    "a second hold": {
        "lower": (
            (
                _COOL,
                "  cool  to 690 degC at most 100 degC/h\n"
                f"  hold  680 .. 700 degC for 65 min\n{_COOL}",
            ),
        ),
    },
    "preheat": {
        "by rule": (("at least          150 degC", "at least          by rule"),),
        "in degF": (("at least          150 degC", "at least          305 degF"),),
        "hotter": (("at least          150 degC", "at least          200 degC"),),
    },
    "width of the preheat": {
        "in total": (("75 mm each side\n  method", "180 mm total\n  method"),),
        "in inches": (("75 mm each side\n  method", "3 in each side\n  method"),),
        "by rule": (("  width             75 mm each side\n  method", "  method"),),
    },
    "width of the bake": {
        "in total": (("width             100 mm each side", "width             200 mm total"),),
        "by rule": (("  width             100 mm each side\n", ""),),
    },
    "bake": {
        "none": (("\nbake W12 {" + BASE.partition("\nbake W12 {")[2], ""),),
        "hold by rule": (("350 degC for 3 h", "350 degC for by rule"),),
        "in degF": (("hold  300 .. 350 degC", "hold  575 .. 660 degF"),),
    },
    "zones": {
        "three": (
            ("from 9:00 to 3:00 power 9 kW", "from 10:00 to 2:00 power 6 kW"),
            ("from 3:00 to 9:00 power 9 kW", "from 2:00 to 6:30 power 6 kW"),
            ("    gap at ", "    zone left from 6:30 to 10:00 power 6 kW heaters 2\n    gap at "),
            (
                _T1S,
                "    T8   controls left at 9:00 on weld channel 9 control channel 3\n"
                f"    T8S  spare for T8 at 9:10 on weld channel 10\n{_T1S}",
            ),
        ),
        "of unlike power": (("from 3:00 to 9:00 power 9 kW", "from 3:00 to 9:00 power 10.5 kW"),),
    },
    "thermocouples": {
        "type N": (
            ("thermocouples type K", "thermocouples type N"),
            ("extension           KX class 1", "extension           NX class 1"),
            ("channels           6 type K", "channels           6 type N"),
            ("channels    12 type K", "channels    12 type N"),
        ),
        "class 2": (("thermocouples type K class 1", "thermocouples type K class 2"),),
    },
    "a place by the tape": {
        "arc": (("edge      at 6:00,  40 mm", "edge      arc 509 mm, 40 mm"),),
    },
    "qualification": {
        "two": (
            (
                '  qualified  "PQR-31" hold 8 h condition below lower critical\n',
                '  qualified  "PQR-31" hold 8 h condition below lower critical\n'
                '  qualified  "PQR-32" hold 9 h condition below lower critical\n',
            ),
        ),
        "with what was before": (
            (
                "  expansion  free\n",
                '  expansion  free\n  already heated 90 min at 690 degC "shop"\n',
            ),
        ),
    },
    "procedure": {
        "none": (("  follows      P-07\n", ""),),
        "by the wall": (
            ("hold time        at least 2.5 min/mm * t", "hold time        at least 3 min/mm * t"),
        ),
    },
}

FORMS: tuple[Choice, ...] = tuple(
    Choice(about, form, changes)
    for about, forms in _ALTERNATIVES.items()
    for form, changes in forms.items()
)

#: Where the base says an entry: a piece of text that stands once, behind which more can be said.
#: A piece that ends its line takes lines, another one clauses.
_PLACES: tuple[tuple[type[Entry], str], ...] = (
    (job.Job, '  number       "HT-0001"\n'),
    (job.Revision, "revision     A on 2026-10-02"),
    (material.Material, '  heat number  "H4471"\n'),
    (joint.Joint, "  axis       horizontal\n"),
    (joint.Qualified, '"PQR-31" hold 8 h'),
    (joint.Welding, '"WPS-12" layers multiple'),
    (joint.Support, '"rod hanger" 1.2 m upstream'),
    (heating.Heating, "    band ratio     5\n"),
    (heating.Zone, "zone bottom    from 3:00 to 9:00 power 9 kW heaters 2"),
    (heating.Insulation, "thickness 50 mm layers 2"),
    (thermocouples.Thermocouples, '    junction cover      "refractory putty"\n'),
    (thermocouples.Attached, "capacitor discharge legs apart 6 mm"),
    (thermocouples.Extension, "KX class 1 length 20 m"),
    (thermocouples.Thermocouple, "on weld              channel 7"),
    (preheat.Preheat, "  when interrupted  cool slowly and preheat again\n"),
    (cycle.Cycle, "  rate margin         10 %\n"),
    (cycle.Bake, "  begins            from preheat\n"),
    (segments.Heat, "heat  to 715 degC   at most 200 degC/h"),
    (segments.Hold, "hold  700 .. 730 degC for 2 h"),
    (segments.Cool, "cool  in still air"),
    (equipment.Controller, '  serial             "40-207"\n'),
    (equipment.Recorder, '  serial      "40-118"\n'),
    (equipment.PowerSource, "  kind      transformer\n"),
)  # fmt: skip


#: What cannot stand in the base by itself, and why.
ALONE: dict[str, str] = {
    "job.open point": "nothing is for construction with an open point",
    "joint.side": "a side named without its material decides no limit",
    "joint.without": "leaves out what `like` brings, and there is none",
    "joint.seam": "the weld goes round a pipe",
    "joint.pad": "the weld goes round a pipe",
    "joint.test plate": "names a material",
    "zone.along": "the weld goes round a pipe",
    "thermocouple.along": "the weld goes round a pipe",
    "joint.flow": "the pipe lies: it cannot flow up",
    "heating.without zone": "leaves out what `like` brings, and there is none",
    "thermocouples.without": "leaves out what `like` brings, and there is none",
    "thermocouples.": "the thermocouple of its sample is there",
    "thermocouples.channel offset": "moves channels beyond the instrument",
    "welding.filler": "names a filler",
    "thermocouple.controls": "the one it stands behind is a spare",
    "thermocouple.monitors": "the one it stands behind is a spare",
    "thermocouple.arc": "its place is said by the clock",
    "thermocouple.control channel": "the channel is taken",
    "cycle.not required": "the qualification is of a treated joint",
    "cycle.lower-temperature hold": "the procedure forbids it",
    "cycle.margin below lower critical": "the procedure asks for more",
    "cool.to": "it is said in the step before",
}


def besides() -> Iterator[Choice]:
    """Every optional thing the vocabulary has for the entries of the base, as its own sample."""
    for cls, piece in _PLACES:
        assert BASE.count(piece) == 1, (cls, piece, BASE.count(piece))
        block = piece.endswith("\n")
        for field in cls.fields.values():
            inline = field.form in (VALUE, CLAUSE, FLAG)
            if field.required or inline is block or field.form == VALUE or field.name == "segments":
                continue
            words = " ".join(field.words)
            if _said(piece, words) and (not field.many or not block):
                continue
            about = f"{' '.join(cls.words) or cls.__name__.lower()}.{words}"
            for entry in field.family or (field.entry,):
                sample = entry.example if entry is not None else field.sample
                if not sample or "…" in sample:
                    continue
                indent = piece[: len(piece) - len(piece.lstrip())]
                new = f"{piece}{indent}{sample}\n" if block else f"{piece} {sample}"
                yield Choice(about, sample, ((piece, new),))


def _said(piece: str, words: str) -> bool:
    """Whether the base says the field already where more would be said behind the piece."""
    at = BASE.index(piece) + len(piece)
    start, end = BASE.rfind("\n", 0, at - 1) + 1, BASE.index("\n", at - 1)
    if not piece.endswith("\n"):
        return re.search(rf"\b{words}\b", BASE[start:end]) is not None
    indent = re.match(" *", BASE[start:end])
    assert indent is not None
    opens, closes = f"\n{indent[0][2:]}}}", f"\n{indent[0]}{words}"
    block = BASE[BASE.rfind("{\n", 0, at) : BASE.index(opens, at - 1)]
    return closes in block
