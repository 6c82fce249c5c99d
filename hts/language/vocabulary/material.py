"""Base metals and fillers."""

from __future__ import annotations

from hts.base.quantities import HYDROGEN, MASS_FRACTION, STRESS, TEMPERATURE, TIME, Quantity
from hts.language.vocabulary.declare import Entry, clause, entry, flag, inner, value
from hts.language.vocabulary.types import (
    Amount,
    Choice,
    Count,
    ElementShare,
    Name,
    Share,
    Size,
    Text,
)
from hts.limits.words import CONDITIONS, EN_GROUPS, GROUP_NUMBERS, P_NUMBERS, S_GROUPS


class Tempered(Entry, words="tempered", example="tempered at 760 degC"):
    """Tempering of the base metal at the mill."""

    at: Quantity | None = clause(
        "at",
        Amount(TEMPERATURE, usual="550 .. 850 degC"),
        "Tempering temperature by certificate",
        required=True,
    )
    certificate: str | None = clause(
        "certificate", Text(), "Certificate that says so", example='"MC-2291"'
    )


class Material(Entry, words="material", example='material header-pipe { grade "A335 P22" }'):
    """A base metal; what it does not say is looked up by its grade."""

    name: str = value(Name("a name", "header-pipe"), "What the specification calls it")
    grade: str | None = entry("grade", Text(), "Standard and grade", example='grade "A335 P22"')
    p_number: str | None = entry(
        "p-number",
        Size("a P-number", "5A", P_NUMBERS),
        "P-number of ASME IX",
        example="p-number 5A",
    )
    group: str | None = entry(
        "group",
        Size("a group number", "1", GROUP_NUMBERS),
        "Group number within the P-number",
        example="group 1",
    )
    s_group: str | None = entry(
        "s-group", Size("a group", "S-4", S_GROUPS), "Group of US Navy S9074", example="s-group S-4"
    )
    preheat_category: str | None = entry(
        "preheat category",
        Choice("A", "B", "C", "D"),
        "Category of AWS D1.1 that the metal and the welding process fall into",
        example="preheat category B",
    )
    en_group: str | None = entry(
        "en group",
        Size("a material group", "5.2", EN_GROUPS),
        "Group of ISO/TR 15608",
        example="en group 5.2",
    )
    heat_numbers: list[str] = entry(
        "heat number", Text(), "Heat or cast number", many=True, example='heat number "H4471"'
    )
    composition: list[Share] = entry(
        "composition",
        ElementShare(),
        "Chemical analysis",
        many=True,
        example="composition C 0.11 %, Mn 0.45 %",
    )
    specified_carbon: Quantity | None = entry(
        "specified carbon",
        Amount(MASS_FRACTION, usual="0.02 .. 0.6 %"),
        "Most carbon the standard of the grade allows, which exemptions rest on",
        example="specified carbon 0.15 %",
    )
    condition: str | None = entry(
        "condition",
        Choice(*CONDITIONS),
        "Delivery condition",
        example="condition normalized and tempered",
    )
    tempered: Tempered | None = inner(Tempered)
    lower_critical: Quantity | None = entry(
        "lower critical",
        Amount(TEMPERATURE, usual="650 .. 900 degC"),
        "Lower critical temperature on heating, Ac1",
        example="lower critical 805 degC",
    )
    tensile_strength: Quantity | None = entry(
        "tensile strength",
        Amount(STRESS, usual="300 .. 1000 MPa"),
        "Specified minimum tensile strength",
        example="tensile strength 415 MPa",
    )


class Dried(Entry, words="dried", example="dried at 350 degC for 2 h"):
    """Drying of electrodes or flux before they are used."""

    at: Quantity | None = clause(
        "at",
        Amount(TEMPERATURE, usual="70 .. 450 degC"),
        "Temperature of the drying oven",
        required=True,
        example="350 degC",
    )
    time: Quantity | None = clause(
        "for",
        Amount(TIME, usual="30 min .. 24 h"),
        "Time in it",
        required=True,
        example="2 h",
        stricter="higher",
    )
    times: int | None = clause(
        "times at most", Count(usual="1 .. 5"), "How often it may be dried in all", example="2"
    )


class Filler(Entry, words="filler", example='filler root-wire { classification "ER90S-B3" }'):
    """A filler metal."""

    name: str = value(Name("a name", "root-wire"), "What the specification calls it")
    classification: str | None = entry(
        "classification", Text(), "Classification", example='classification "ER90S-B3"'
    )
    nickel_manganese: Quantity | None = entry(
        "nickel and manganese",
        Amount(MASS_FRACTION, usual="0.1 .. 5 %"),
        "Nickel plus manganese of the deposit, which lowers its lower critical temperature",
        example="nickel and manganese 1.0 %",
    )
    lower_critical: Quantity | None = entry(
        "lower critical",
        Amount(TEMPERATURE, usual="600 .. 900 degC"),
        "Lower critical temperature of the deposit on heating, Ac1",
        example="lower critical 790 degC",
    )
    composition: list[Share] = entry(
        "composition",
        ElementShare(),
        "Analysis of the deposit",
        many=True,
        example="composition C 0.08 %, Cr 2.3 %",
    )
    hydrogen: Quantity | None = entry(
        "diffusible hydrogen",
        Amount(HYDROGEN, usual="0.5 .. 20 ml/100g"),
        "Diffusible hydrogen of the deposit",
        example="diffusible hydrogen 5 ml/100g",
    )
    dried: Dried | None = inner(Dried)
    oven: Quantity | None = entry(
        "holding oven at least",
        Amount(TEMPERATURE, usual="50 .. 200 degC"),
        "Temperature of the holding oven and of the quiver at the weld",
        example="holding oven at least 120 degC",
    )
    exposed: Quantity | None = entry(
        "out of oven at most",
        Amount(TIME, usual="20 min .. 24 h"),
        "Longest time in open air before it is dried again",
        example="out of oven at most 4 h",
    )
    nickel_based: bool = flag("nickel based", "Austenitic or nickel-alloy filler")
