"""Thermocouples, each with what it does."""

from __future__ import annotations

from hts.base.quantities import DIFFERENCE, ENERGY, LENGTH, MASS, TEMPERATURE, Quantity
from hts.base.quantities.clock import ClockPosition
from hts.language.vocabulary.declare import Entry, clause, entry, flag, inner, value, worked_out
from hts.language.vocabulary.types import (
    Amount,
    Choice,
    Clock,
    Count,
    Day,
    Name,
    Offset,
    OffsetValue,
    PlusMinus,
    Reference,
    Text,
    To,
)

TYPES = ("K", "N", "J", "E", "T", "R", "S", "B")
#: Places that only what is heated in bands has.
BAND_EDGES = ("soak edge", "heated edge", "gradient edge")
PLACES = (
    *BAND_EDGES,
    "weld",
    "base metal",
    "heavy section",
    "test plate",
    "inside",
    "nearby item",
    "ambient",
    "preheat",
)


class Thermocouple(Entry, example="T1 controls top at 12:00 on weld channel 1"):
    """One thermocouple: it controls a zone, monitors a place, or is the spare of another."""

    told_by = ("controls", "monitors", "spare_for", "at", "on_weld")
    name: str = value(Name("a tag", "T1"), "Tag")
    controls: Reference | None = clause(
        "controls", To("zone"), "Zone whose heaters it controls", asked="control"
    )
    monitors: str | None = clause("monitors", Choice(*PLACES), "Place it watches", asked="monitor")
    spare_for: Reference | None = clause(
        "spare for", To("thermocouple"), "Thermocouple it stands in for"
    )
    at: ClockPosition | None = clause("at", Clock(), "Clock position", example="12:00")
    arc: Quantity | None = clause(
        "arc",
        Amount(LENGTH, usual="0 .. 20 m"),
        "Length along the outside from 12:00, clockwise",
        example="254 mm",
    )
    along: Quantity | None = clause(
        "along",
        Amount(LENGTH, usual="0, 5 mm .. 40 m"),
        "Distance along a long seam from the end stated, or clockwise round a pad from its upper "
        "left corner",
        example="600 mm",
    )
    on_weld: bool = flag("on weld", "On the weld centreline")
    offset: OffsetValue | None = value(
        Offset(usual="0, 1 mm .. 20 m"), "Distance from the weld centreline and side", optional=True
    )
    surface: str | None = clause(
        "surface", Choice("outside", "inside"), "Surface it is attached to (outside unless said)"
    )
    channel: int | None = clause(
        "channel", Count(usual="1 .. 128"), "Recorder channel", example="1"
    )
    control_channel: int | None = clause(
        "control channel", Count(usual="1 .. 128"), "Controller channel", example="1"
    )
    recorder: Reference | None = clause("recorder", To("recorder"), "Recorder, if not the cycle's")
    controller: Reference | None = clause(
        "controller", To("controller"), "Controller, if not the cycle's"
    )
    lead: Quantity | None = clause(
        "lead", Amount(LENGTH, usual="0.3 .. 100 m"), "Length of its own lead", example="2 m"
    )
    not_connected: bool = flag("not connected", "Led out but not connected until needed")
    apart: Quantity | None = worked_out(
        "within",
        Amount(LENGTH, usual="8 .. 60 mm"),
        "Distance of a spare from the one it stands in for, along the surface",
        of=("at", "arc", "along", "offset", "spare_for"),
        stricter="lower",
    )


class Calibrated(Entry, words="calibrated", example="calibrated 2026-09-01 until 2027-03-01"):
    """Calibration and the day it runs out."""

    on: str = value(Day(), "Day of calibration")
    until: str | None = clause(
        "until", Day(), "Day it runs out", required=True, example="2027-03-01"
    )
    certificate: str | None = clause(
        "certificate", Text(), "Number of the certificate", example='"CAL-118"'
    )


class Attached(Entry, words="attached", example="attached capacitor discharge energy 100 J"):
    """How the junction is fixed."""

    how: str = value(
        Choice("capacitor discharge", "mechanical", "peened", "banded", "sheathed", "contact"),
        "Way of fixing",
    )
    energy: Quantity | None = clause(
        "energy",
        Amount(ENERGY, usual="40 .. 250 J"),
        "Stored energy of the attachment",
        example="100 J",
    )
    separation: Quantity | None = clause(
        "legs apart",
        Amount(LENGTH, usual="1 .. 25 mm"),
        "Distance between the two wires on the metal",
        example="6 mm",
    )
    stripped: Quantity | None = clause(
        "stripped", Amount(LENGTH, usual="2 .. 40 mm"), "Bare length of each wire", example="5 mm"
    )
    order: str | None = clause("first leg", Choice("positive", "negative"), "Leg attached first")
    prepared: str | None = clause(
        "surface", Choice("filed clean", "ground clean"), "Preparation of the spot"
    )
    separate: bool = flag("each leg apart", "Each leg is attached by itself")
    bent: bool = flag(
        "bent flat", "Bent flat onto the metal afterwards, which also tests the attachment"
    )
    taped: bool = flag("taped", "Taped down after that, so that no pull reaches the attachment")
    pulled: bool = flag("pull test by hand", "Each wire is pulled by hand, and holds")
    pull: Quantity | None = clause(
        "pull test",
        Amount(MASS, usual="0.1 .. 10 kg"),
        "Pull each wire holds, as a spring balance shows it",
        example="1 kg",
        stricter="higher",
    )
    bias: Quantity | None = clause(
        "bias",
        Amount(DIFFERENCE, usual="-50 .. 60 K"),
        "How much too hot the way of fixing reads",
        example="6 K",
    )


class Extension(Entry, words="extension", example="extension KX class 1 length 20 m shielded"):
    """Cable between thermocouple wire and instrument."""

    code: str = value(Name("a cable marking", "KX"), "Marking of the cable")
    grade: str | None = clause("class", Choice("1", "2", "standard", "special"), "Tolerance class")
    length: Quantity | None = clause(
        "length", Amount(LENGTH, usual="4 .. 150 m"), "Length", example="20 m"
    )
    shielded: bool = flag("shielded", "Shielded against interference")
    connectors: str | None = clause(
        "connectors", Choice("same alloy", "copper", "none"), "Contacts of the connectors"
    )
    hottest: Quantity | None = clause(
        "hottest end",
        Amount(TEMPERATURE, usual="25 .. 200 degC"),
        "Temperature of its warm end",
        example="60 degC",
    )


class Thermocouples(
    Entry, words="thermocouples", block=True, example="thermocouples type K class 1 { … }"
):
    """The thermocouples of a joint, and what they have in common."""

    type: str | None = clause("type", Choice(*TYPES), "Thermocouple type", required=True)
    grade: str | None = clause(
        "class",
        Choice("1", "2", "3", "standard", "special"),
        "Class of IEC 60584-1, or limits of error of ASTM E230",
        required=True,
    )
    gauge: int | None = clause("gauge", Count(usual="10 .. 30"), "Wire size, AWG", example="20")
    wire: str | None = clause("wire", Choice("solid", "stranded"), "Solid or stranded wire")
    attached: Attached | None = inner(Attached)
    extension: Extension | None = inner(Extension)
    colours: str | None = entry(
        "colours",
        Choice("ASTM E230", "IEC 60584-3"),
        "Colour standard of the conductors",
        required=True,
        example="colours IEC 60584-3",
    )
    wire_insulation: str | None = entry(
        "wire insulation",
        Choice("glass braid", "vitreous silica", "ceramic fibre"),
        "Insulation of the wires",
        example="wire insulation glass braid",
    )
    junction_cover: str | None = entry(
        "junction cover",
        Text(),
        "Shield of the junction against heater radiation",
        example='junction cover "refractory putty"',
    )
    lead: Quantity | None = entry(
        "lead at least",
        Amount(LENGTH, usual="0.3 .. 8 m"),
        "Shortest lead of the wire",
        example="lead at least 1 m",
    )
    leads: str | None = entry(
        "leads",
        Choice("square to the coil", "along the coil"),
        "How the leads run to the turns of an induction coil",
        example="leads square to the coil",
    )
    error: Quantity | None = entry(
        "error",
        PlusMinus(DIFFERENCE, usual="0.1 .. 12 K"),
        "Error by calibration of the wire lot",
        example="error +/- 1.1 degC",
    )
    calibrated: Calibrated | None = inner(Calibrated)
    lot: str | None = entry(
        "wire lot", Text(), "Wire lot and its certificate", example='wire lot "K-2291"'
    )
    reference_junction: Quantity | None = entry(
        "reference junction",
        Amount(TEMPERATURE, usual="0, 10 .. 50 degC"),
        "Temperature of the reference junction the expected millivolts are given for",
        example="reference junction 25 degC",
    )
    channel_offset: int | None = entry(
        "channel offset",
        Count(usual="0 .. 128"),
        "Added to every channel below, for a joint begun like another",
        example="channel offset 6",
    )
    without: list[Reference] = entry(
        "without",
        To("thermocouple"),
        "Thermocouples of the joint this one is `like` that it does not have",
        many=True,
        example="without T9, T10",
    )
    each: list[Thermocouple] = inner(Thermocouple, many=True)
