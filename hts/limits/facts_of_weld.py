"""Facts about the pair of metals, the way the weld is made, and what it has been through."""

from __future__ import annotations

from hts.base.quantities import COUNT, LENGTH, MASS_FRACTION, TEMPERATURE, TIME
from hts.limits.fact_kind import FactKind
from hts.limits.words import P_NUMBERS
from hts.science.tables.fillers import FAMILIES
from hts.science.tables.welding_processes import NAMES, POSITIONS
from hts.syntax.formula import Text

_P_NUMBERS = ("the P-number of both sides", "`p-number …` of the materials")
_ANALYSIS = ("the analysis", "`composition C … %, Mn … %` of the material")

_COOLING = (
    "preheat, interpass temperature and heat input",
    "`preheat … at least … interpass at most …` and `welding … heat input … kJ/mm`",
)

FACTS_OF_WELD: dict[str, FactKind] = {
    "lowest_p_number": FactKind(
        Text(*P_NUMBERS), "the lower P-number of the parts joined", "joint", _P_NUMBERS
    ),
    "highest_p_number": FactKind(
        Text(*P_NUMBERS), "the higher P-number of the parts joined", "joint", _P_NUMBERS
    ),
    "process": FactKind(
        Text(*NAMES),
        "welding process, by its letters or its number in ISO 4063; of several, each",
        "joint",
        ("the welding process", '`welding … process "SMAW"`'),
    ),
    "position": FactKind(
        Text(*POSITIONS),
        "welding position, such as 5G or PF; of several, each",
        "joint",
        ("the welding position", "`welding … position 5G`"),
    ),
    "filler_family": FactKind(
        Text(*FAMILIES),
        "what the filler is alloyed with, by the end of its AWS classification",
        "joint",
        (
            "the classification of the filler",
            '`classification "…"` of the filler and `welding … filler …`',
        ),
    ),
    "made_in": FactKind(
        Text("field", "shop"),
        "where the weld is made",
        "joint",
        ("where it is made", "`made in …`"),
    ),
    "heavy_wall": FactKind(
        LENGTH,
        "wall of the thickest section stated beside the weld, such as a flange or a valve",
        "joint",
        ("what is heavier beside the weld", "`heavy section … wall … mm`"),
        seldom=True,
    ),
    "part_length": FactKind(
        LENGTH,
        "length of the vessel or part that is heated whole",
        "joint",
        ("the length of the part", "`part length … m` of the heating"),
        seldom=True,
    ),
    "carbon_equivalent": FactKind(
        MASS_FRACTION,
        "carbon equivalent CE of the IIW by analysis: C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15",
        "side",
        _ANALYSIS,
    ),
    "pcm": FactKind(
        MASS_FRACTION,
        "Pcm by analysis: C + Si/30 + (Mn + Cu + Cr)/20 + Ni/60 + Mo/15 + V/10 + 5 B",
        "side",
        _ANALYSIS,
    ),
    "combined_thickness": FactKind(
        LENGTH,
        "combined thickness (EN 1011-2 method A): of all ways in which the heat of the weld flows "
        "off, two of a butt weld, three of a fillet or branch",
        "joint",
        ("the walls and the heat input", "`wall … measured` and `welding … heat input … kJ/mm`"),
    ),
    "preheat_by_ce": FactKind(
        TEMPERATURE,
        "preheat by EN 1011-2 method A as far as its Table C.1 goes: 20 degC where the combined "
        "thickness needs none; CE 0.30 to 0.49 %, from 1 kJ/mm, and no value beyond",
        "joint",
        (
            "what EN 1011-2 method A is worked out from, within its Table C.1 "
            "(its diagrams are not here)",
            "`composition C … %, Mn … %` of the materials, `diffusible hydrogen` of the filler, "
            "`welding … heat input`",
        ),
    ),
    "cooling_time": FactKind(
        TIME,
        "t8/5, the time a run of weld cools in from 800 to 500 degC (EN 1011-2 Annex D): the "
        "shortest, at the least preheat and the thickest wall",
        "joint",
        _COOLING,
    ),
    "longest_cooling_time": FactKind(
        TIME,
        "the longest t8/5, at the highest interpass temperature and the thinnest wall",
        "joint",
        _COOLING,
    ),
    "cycle_number": FactKind(
        COUNT,
        "which of the cycles of the joint this one is, in the order they are written, from 1",
        "cycle",
        worked_out="counted from the cycles",
    ),
    "earlier_treatments": FactKind(
        COUNT,
        "number of heat treatments the joint has had",
        "joint",
        worked_out="counted from `already heated`",
    ),
    "earlier_hold": FactKind(
        TIME,
        "time at temperature of earlier heat treatments, added",
        "joint",
        worked_out="added from `already heated`",
    ),
}
