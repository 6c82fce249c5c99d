"""The kinds of fault of a measuring chain, and of the heating, that are looked for: the one list.

How a fault shows is common practice, without a source, but for the two ways of reversing a pair,
which follow from the reference functions (`hts.science.thermocouples.faults`; basis: derived).
"""

from __future__ import annotations

from typing import NamedTuple

HIGH, MEDIUM, LOW = "high", "medium", "low"
LEFT_OUT, KEPT = "left out", "kept"


class FaultKind(NamedTuple):
    """`name` is for programs: JSON and options of commands. People read `title`, which names it,
    `summary`, which says what happened, and `remedy`, what to do about it."""

    name: str
    title: str
    summary: str
    remedy: str


OPEN_UPSCALE = FaultKind(
    "open-upscale",
    "open circuit, driven to full scale",
    "open circuit: break detection drives the reading to the top of the scale",
    "repair the circuit, or go over to the spare and note it as an event",
)
OPEN_DOWNSCALE = FaultKind(
    "open-downscale",
    "open circuit, driven to the bottom of the scale",
    "open circuit: break detection drives the reading to the bottom of the scale",
    "repair the circuit, or go over to the spare; set break detection upscale where it controls",
)
INTERMITTENT = FaultKind(
    "intermittent",
    "loose contact",
    "a contact that opens and closes: readings missing, and wild ones between",
    "tighten the terminals and plugs, look for a broken wire; go over to the spare",
)
FLAT = FaultKind(
    "flat",
    "does not respond",
    "does not respond at all while the part is heated",
    "look whether it is attached, and whether its channel is connected",
)
STUCK = FaultKind(
    "stuck",
    "reading stuck",
    "repeats one value while the others move",
    "look for a recorder or link that holds its last value; what it hides is not recorded",
)
CUT_OFF = FaultKind(
    "cut-off",
    "cut off at the top of the scale",
    "stands at the highest value it can show: the metal may be hotter than that",
    "set a wider scale in the recorder; how hot the part was is to be shown otherwise",
)
EDITED = FaultKind(
    "edited",
    "readings written over",
    "for a time its readings are not like those of its channel before and after: written over, or "
    "something gets into them",
    "have the log exported anew from the recorder itself, and ask who changed it; look at what was "
    "switched on meanwhile",
)
COARSE = FaultKind(
    "coarse",
    "recorded too coarsely",
    "goes by far larger steps than the others: what the metal did between two of them is not "
    "recorded",
    "set range and digits of its channel in the recorder as those of the others",
)
FILLED_IN = FaultKind(
    "filled-in",
    "rows filled in",
    "runs straight, without noise: readings were worked out, or drawn, between two others",
    "look for a lost link, and have the log exported from the recorder itself, no gap filled",
)
SPIKES = FaultKind(
    "spikes",
    "spikes",
    "single readings no metal can follow",
    "look for loose contacts, and for power cables beside the extension cable",
)
REVERSED = FaultKind(
    "reversed",
    "polarity reversed",
    "legs changed over once: the reading falls as the part is heated",
    "turn off the power of its zone, change the legs over, begin again",
)
EXTENSION_REVERSED = FaultKind(
    "extension-reversed",
    "extension cable reversed at both ends",
    "reads low in proportion: as with an extension cable changed over at both ends, by about twice "
    "what its head is warmer than the instrument",
    "check the polarity and type of the extension cable at both ends; the part may be hotter",
)
SHORTED = FaultKind(
    "shorted",
    "wires shorted",
    "follows a cooler place: the two wires touch on the way",
    "find where the bare wires touch; the part is hotter than it reads",
)
EXCHANGED = FaultKind(
    "exchanged",
    "channels exchanged",
    "two channels changed over: each moves with the zone of the other",
    "warm each by hand and see which channel answers; then map the columns the right way round",
)
AMBIENT = FaultKind(
    "ambient",
    "fallen off",
    "fell off: reads the air",
    "attach it again, or go over to the spare",
)
ERROR_TEXT = FaultKind(
    "error-text",
    "text in place of readings",
    "the recorder writes text in place of a reading",
    "look up the text in the manual of the recorder; mostly the circuit is open",
)
BLANK = FaultKind(
    "blank",
    "empty cells",
    "cells with nothing in them",
    "look for a lost link between instrument and recorder",
)
CLOCK_JUMP = FaultKind(
    "clock-jump",
    "clock set",
    "the clock of the recorder was set, or changed to or from summer time",
    "note when and by how much; say the zone with --zone if it was summer time",
)
CLOCK_RATE = FaultKind(
    "clock-rate",
    "clock slow or fast",
    "two times in the file run apart, or times pass at another rate for a part of a hold",
    "hold the recorder against a watch for an hour, and find which of the two is right; have the "
    "log exported anew from the recorder itself; until then its times and rates show nothing",
)

DISAGREE = FaultKind(
    "disagree",
    "two at one place disagree",
    "two thermocouples at one place read what cannot both be true",
    "compare both with a third, look at plugs, polarity and type of each; until then go by the "
    "less favourable one",
)
COLD_OFFSET = FaultKind(
    "apart-when-cold",
    "off the others while cold",
    "stands off the others while the part is cold",
    "check its type and cold junction in the recorder before heating",
)
FROZEN = FaultKind(
    "all-stand-still",
    "recorder hung",
    "every reading repeats itself: the recorder or its link hung",
    "start the recorder again; what it did not record is to be shown otherwise",
)
REPEATED = FaultKind(
    "rows-repeated",
    "rows repeated",
    "rows stand in the record a second time with other times, or with one amount added to all",
    "have the log exported anew from the recorder itself",
)
COPIED = FaultKind(
    "copied",
    "column copied",
    "two columns have one and the same noise: one is made of the other",
    "look which column is which channel, and have the log exported anew from the recorder itself",
)

WORKED_OUT = FaultKind(
    "worked-out",
    "column worked out of others",
    "its noise is that of other columns: no thermocouple measured it, it was worked out of them",
    "look what the recorder writes into this column, and have that of the thermocouple exported",
)
WRONG_TYPE = FaultKind(
    "wrong-type",
    "wrong thermocouple type set",
    "the recorder is set to another type than the wire is",
    "set the type of the channel; what was read can be worked back only where both types are known",
)
WRONG_UNIT = FaultKind(
    "wrong-unit",
    "wrong unit",
    "the numbers are in another unit than they are said to be",
    "say the unit with --unit or in the map beside the log, and set it right in the recorder",
)
WRONG_SCALE = FaultKind(
    "wrong-scale",
    "decimal point wrong",
    "reads ten times too much, or a tenth",
    "look for the decimal point of this channel in the recorder and in the export",
)
COLD_JUNCTION = FaultKind(
    "cold-junction",
    "cold junction stepped",
    "steps by one amount at once: the cold junction of the recorder",
    "look at the terminals of the recorder: sun, draught, a cover left off; compare with a "
    "calibrator",
)
DRIFT = FaultKind(
    "drift",
    "drift",
    "goes away from those beside it, slowly and more and more",
    "go over to the spare; the wire has changed and does not come back",
)
PICK_UP = FaultKind(
    "mains-pick-up",
    "mains pick-up",
    "jumps to and fro as no metal does: voltage of the heaters gets into it",
    "earth the junction once only, keep the extension away from power cables, look for bare wire",
)
NEAR_HEATER = FaultKind(
    "near-heater",
    "junction at a heater",
    "goes with what the heaters give: the junction touches or sees a heater",
    "cover the junction, move the heater off it, or go over to the spare; it reads the heater, and "
    "where it is above those beside it, the part is colder than it reads",
)
DETACHED = FaultKind(
    "detached",
    "junction come loose",
    "slowly fell behind those beside it: the junction has come off or loose",
    "go over to the spare; the part is hotter than it reads",
)
LAGS = FaultKind(
    "lags",
    "answers late",
    "follows the one beside it late: low while the part is heated, high while it cools, right in "
    "the hold",
    "look how the junction is attached, for paste, a lump or a loose clip; rates read from it are "
    "those of the lump",
)
LEAKS = FaultKind(
    "insulation-leak",
    "insulation leaks when hot",
    "low only while hot: the insulation of the wire conducts",
    "go over to the spare; the part is hotter than it reads",
)
HEATER_LOSS = FaultKind(
    "heater-loss",
    "heater lost",
    "a zone loses heat while the others keep theirs: a heater, lead, contactor or supply of it",
    "look at the supply, contactor, leads and heaters of the zone, power off first; the part is as "
    "cold as it reads",
)
OFFSET = FaultKind(
    "offset",
    "constant offset",
    "off by one amount, throughout or from one row on",
    "check its connection, cable and channel with a calibrator",
)

KINDS = (
    OPEN_UPSCALE,
    OPEN_DOWNSCALE,
    INTERMITTENT,
    FLAT,
    STUCK,
    CUT_OFF,
    SPIKES,
    REVERSED,
    EXTENSION_REVERSED,
    SHORTED,
    EXCHANGED,
    AMBIENT,
    ERROR_TEXT,
    BLANK,
    CLOCK_JUMP,
    CLOCK_RATE,
    DISAGREE,
    COLD_OFFSET,
    FROZEN,
    FILLED_IN,
    COARSE,
    EDITED,
    REPEATED,
    COPIED,
    WORKED_OUT,
    WRONG_TYPE,
    WRONG_UNIT,
    WRONG_SCALE,
    COLD_JUNCTION,
    DRIFT,
    PICK_UP,
    NEAR_HEATER,
    DETACHED,
    LAGS,
    LEAKS,
    OFFSET,
    HEATER_LOSS,
)
BY_NAME = {kind.name: kind for kind in KINDS}

#: Those that leave it open which readings are the true ones: what is kept shows nothing either.
EITHER_MAY_BE = frozenset((REPEATED.name,))
#: Those of the heating: the readings are right, and in doubt is nothing of them.
OF_HEATING = frozenset((HEATER_LOSS.name,))
#: Those that are over when the reading is back, and explain nothing else.
PASSING = frozenset(kind.name for kind in (SPIKES, BLANK, ERROR_TEXT, INTERMITTENT))
#: Those by which a control has its zone held at another temperature than it reads.
MISLEADING = frozenset(
    kind.name for kind in (DRIFT, EXTENSION_REVERSED, OFFSET, WRONG_TYPE, WRONG_UNIT, WRONG_SCALE)
)
