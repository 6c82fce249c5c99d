"""The weld and its surroundings."""

from __future__ import annotations

from hts.base.quantities import (
    HEAT_INPUT,
    LENGTH,
    TEMPERATURE,
    TIME,
    Interval,
    Quantity,
)
from hts.language.vocabulary.declare import Entry, clause, entry, flag, inner, value
from hts.language.vocabulary.heating import Heating
from hts.language.vocabulary.sides import (
    Axis,
    Between,
    Branch,
    HeavySection,
    Pad,
    Pipe,
    Seam,
    Side,
    Wall,
)
from hts.language.vocabulary.thermocouples import Thermocouples
from hts.language.vocabulary.types import (
    Amount,
    ByRule,
    Choice,
    Name,
    Offset,
    OffsetValue,
    OrRule,
    Processes,
    Range,
    Reference,
    Size,
    Text,
    To,
)
from hts.limits.words import SERVICES
from hts.science.tables.welding_processes import POSITIONS

KINDS = ("girth butt", "long seam", "branch", "socket", "fillet", "attachment", "repair", "seal")
#: What a joint begun `like` another can leave out of it.
LEFT_OUT = (
    "branch weld",
    "heavy section",
    "seam",
    "pad",
    "drawing",
    "drawing revision",
    "flow",
    "line",
    "spool",
    "service",
    "heat treatment asked for by",
    "qualified",
    "welding",
    "nearby",
    "support",
    "unsupported span",
    "calculation",
    "test plate",
    "already heated",
)


class Qualified(Entry, words="qualified", example='qualified "PQR-31" hold 8 h'):
    """The procedure qualification that supports the weld, and its heat treatment."""

    record: str = value(Text(), "Number of the qualification record")
    hold: Quantity | None = clause(
        "hold",
        Amount(TIME, usual="10 min .. 30 h"),
        "Time at temperature of the test piece",
        example="8 h",
    )
    temperature: Interval | None = clause(
        "between", Range(TEMPERATURE, usual="500 .. 1100 degC"), "Temperature of the test piece"
    )
    condition: str | None = clause(
        "condition",
        Choice(
            "without heat treatment",
            "below lower critical",
            "above upper critical",
            "above upper then below lower critical",
            "between critical temperatures",
        ),
        "Heat-treatment condition the test piece was in",
    )
    preheat: Quantity | None = clause(
        "preheat",
        Amount(TEMPERATURE, usual="0 .. 400 degC"),
        "Preheat of the test piece",
        example="150 degC",
    )
    thickness: Quantity | None = clause(
        "thickness",
        Amount(LENGTH, usual="1.5 .. 250 mm"),
        "Thickness of the test piece",
        example="20 mm",
    )
    single_pass: bool = flag(
        "single pass", "Welded in a single pass, heat input within 10 % of the production weld's"
    )
    baked: bool = flag("baked", "The test piece had a hydrogen release after welding")
    toughness: bool = flag("with toughness", "Toughness was tested")
    hardness_tested: bool = flag("with hardness", "Hardness was tested")


class Welding(Entry, words="welding", example='welding "WPS-12" layers multiple'):
    """The welding procedure."""

    procedure: str | None = value(
        Text(), "Number of the welding procedure specification", optional=True
    )
    process: str | None = clause(
        "process",
        Processes(),
        "Welding process, by its letters or its number in ISO 4063",
        example='"GTAW root, SMAW fill"',
    )
    position: list[str] = clause(
        "position",
        Size("a welding position", "5G", POSITIONS),
        "Welding position of AWS A3.0 or ISO 6947",
        many=True,
        example="5G",
    )
    welders: list[str] = clause(
        "welder", Text(), "Stamp or name of the welder", many=True, example='"W-31"'
    )
    layers: str | None = clause("layers", Choice("single", "multiple"), "Single or multiple layers")
    filler: Reference | None = clause("filler", To("filler"), "Filler metal")
    heat_input: Quantity | None = clause(
        "heat input", Amount(HEAT_INPUT, usual="0.2 .. 6 kJ/mm"), "Heat input"
    )


class Nearby(
    Entry, words="nearby", example='nearby "gate valve seat" 450 mm downstream at most 200 degC'
):
    """Something close by with a temperature limit of its own."""

    what: str = value(Text(), "What it is")
    where: OffsetValue = value(Offset(usual="50 mm .. 15 m"), "Where, from the weld centreline")
    at_most: Quantity | None = clause(
        "at most",
        Amount(TEMPERATURE, usual="40 .. 500 degC"),
        "Temperature it may reach",
        example="200 degC",
    )
    removed: bool = flag("removed", "Taken away before heating")
    protected: bool = flag("protected", "Protected by cooling or a heat shield")
    monitored: Reference | None = clause(
        "monitored by", To("thermocouple"), "Thermocouple that watches it"
    )


class Support(Entry, words="support", example='support "spring hanger" 1.2 m upstream locked'):
    """A support, and its state while hot."""

    what: str = value(Text(), "What it is")
    where: OffsetValue = value(Offset(usual="50 mm .. 15 m"), "Where, from the weld centreline")
    state: str | None = value(
        Choice("locked", "released", "fixed", "guided", "temporary"),
        "State during heat treatment",
        optional=True,
    )


class Calculation(Entry, words="calculation", example='calculation "CN-14" for bands'):
    """A calculation the design of the treatment rests on."""

    told_by = ("of",)
    number: str = value(Text(), "Number of the calculation")
    of: str | None = clause(
        "for", Choice("bands", "power", "support", "thermal stress"), "What it works out"
    )


class Earlier(
    Entry, words="already heated", example='already heated 2 h at 690 degC "shop stress relief"'
):
    """Heat treatment the joint has had, for the ledger of time at temperature."""

    time: Quantity = value(Amount(TIME, usual="20 min .. 100 h"), "Time at temperature")
    at: Quantity | None = clause(
        "at",
        Amount(TEMPERATURE, usual="500 .. 1100 degC"),
        "Temperature",
        required=True,
        example="690 degC",
    )
    what: str = value(Text(), "Which treatment it was", optional=True)


class TestPlate(
    Entry, words="test plate", example='test plate "TP-3" of header-pipe thickness 40 mm'
):
    """A plate welded along with the joint and heated as it is, for mechanical tests."""

    name: str = value(Text(), "Its stamp")
    heated: str | None = value(
        Choice("heated with the joint", "heated by itself"),
        "Whether it lies in the same heat; heated with the joint unless said",
        optional=True,
    )
    material: Reference | None = clause("of", To("material"), "Its material", required=True)
    heat_number: str | None = clause(
        "heat number", Text(), "Heat number of the plate", example='"H4471"'
    )
    thickness: Quantity | None = clause(
        "thickness", Amount(LENGTH, usual="3 .. 300 mm"), "Thickness", example="40 mm"
    )
    monitored_by: Reference | None = clause(
        "monitored by", To("thermocouple"), "Thermocouple that watches it"
    )


class Joint(Entry, words="joint", example="joint W12 { … }", block=True):
    """A weld, or several alike, with all that decides how it is heated."""

    names: list[str] = value(Name("the name of a joint", "W12"), "Name of each joint", many=True)
    like: Reference | None = clause(
        "like", To("joint"), "Another joint this one equals but for what it says itself"
    )
    row: Reference | None = clause(
        "in", To("weld list"), "The weld list whose row it is; it equals it but for what it says"
    )
    without: list[str] = entry(
        "without",
        Choice(*LEFT_OUT),
        "What the other joint says and this one does not",
        many=True,
        example="without support, nearby",
    )
    kind: str | None = entry(
        "kind", Choice(*KINDS), "Kind of weld", required=True, example="kind girth butt"
    )
    between: Between | None = inner(Between)
    pipe: Pipe | None = inner(Pipe)
    wall: Wall | None = inner(Wall)
    sides: list[Side] = inner(Side, many=True)
    heavy_sections: list[HeavySection] = inner(HeavySection, many=True)
    branch: Branch | None = inner(Branch)
    seam: Seam | None = inner(Seam)
    pad: Pad | None = inner(Pad)
    throat: Quantity | None = entry(
        "throat",
        Amount(LENGTH, usual="2 .. 60 mm"),
        "Throat of a fillet or socket weld",
        example="throat 8 mm",
    )
    groove_depth: Quantity | None = entry(
        "groove depth",
        Amount(LENGTH, usual="1 .. 250 mm"),
        "Depth of a partial groove or repair cavity",
        example="groove depth 12 mm",
    )
    governing_thickness: Quantity | ByRule | None = entry(
        "governing thickness",
        OrRule(Amount(LENGTH, usual="1.5 .. 300 mm")),
        "Thickness that governs hold and rates",
        example="governing thickness by rule",
    )
    cap_width: Quantity | None = entry(
        "cap width",
        Amount(LENGTH, usual="4 .. 150 mm"),
        "Greatest width of the weld",
        example="cap width 30 mm",
    )
    axis: Axis | None = inner(Axis)
    datum: str | None = entry(
        "datum",
        Choice("top", "north", "long seam", "weld stamp", "flow arrow", "branch"),
        "What lies at 12:00 (top unless said)",
        example="datum top",
    )
    viewed: str | None = entry(
        "viewed",
        Choice(
            "with flow",
            "against flow",
            "from side A",
            "from side B",
            "from above",
            "from below",
            "from north",
            "from branch",
        ),
        "From where clock positions are seen",
        example="viewed with flow",
    )
    flow: list[str] = entry(
        "flow",
        Choice(
            "A to B",
            "B to A",
            "run to branch",
            "branch to run",
            "up",
            "down",
            "north",
            "east",
            "south",
            "west",
            "none",
        ),
        "Direction of flow through the line, in every way its sides are told",
        many=True,
        example="flow A to B, up",
    )
    drawing: str | None = entry(
        "drawing", Text(), "Isometric or other drawing", example='drawing "TI-B2-ISO-031"'
    )
    drawing_revision: str | None = entry(
        "drawing revision",
        Name("a revision", "2"),
        "Revision of the drawing",
        example="drawing revision 2",
    )
    line: str | None = entry("line", Text(), "Line number", example='line "12-FW-2041"')
    spool: str | None = entry("spool", Text(), "Spool number", example='spool "SP-7"')
    made: str | None = entry(
        "made in", Choice("field", "shop"), "Where the weld is made", example="made in field"
    )
    weld_is: str | None = entry(
        "weld is",
        Choice("to be made", "made already"),
        "Whether this work makes the weld; one made already had its preheat then",
        example="weld is made already",
    )
    service: list[str] = entry(
        "service", Choice(*SERVICES), "Service of the line", many=True, example="service feed water"
    )
    asked_for: str | None = entry(
        "heat treatment asked for by",
        Choice("design", "welding procedure", "owner"),
        "Who asks for post-weld heat treatment where the code may exempt the weld from it",
        example="heat treatment asked for by design",
    )
    qualified: list[Qualified] = inner(Qualified, many=True)
    welding: Welding | None = inner(Welding)
    nearby: list[Nearby] = inner(Nearby, many=True)
    supports: list[Support] = inner(Support, many=True)
    expansion: str | None = entry(
        "expansion",
        Choice("free", "guided", "restrained"),
        "Freedom of the line to move",
        example="expansion free",
    )
    flanges: str | None = entry(
        "flanges",
        Choice("unbolted", "bolted", "none"),
        "State of flanges close by",
        example="flanges unbolted",
    )
    unsupported_span: Quantity | None = entry(
        "unsupported span",
        Amount(LENGTH, usual="0.2 .. 20 m"),
        "Length without support while hot",
        example="unsupported span 1.8 m",
    )
    calculations: list[Calculation] = inner(Calculation, many=True)
    test_plates: list[TestPlate] = inner(TestPlate, many=True)
    earlier: list[Earlier] = inner(Earlier, many=True)
    heating: Heating | None = inner(Heating)
    thermocouples: Thermocouples | None = inner(Thermocouples)
