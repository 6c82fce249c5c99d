"""The facts a formula may use: a closed list, so that a slip in a name is an error, not a gap."""

from __future__ import annotations

from hts.base.quantities import (
    COUNT,
    DIFFERENCE,
    HEAT_INPUT,
    HYDROGEN,
    LENGTH,
    MASS_FRACTION,
    STRESS,
    TEMPERATURE,
    TIME,
)
from hts.limits.fact_kind import FactKind
from hts.limits.facts_of_weld import FACTS_OF_WELD
from hts.limits.words import (
    CONDITIONS,
    EN_GROUPS,
    GROUP_NUMBERS,
    P_NUMBERS,
    PARTS,
    S_GROUPS,
    SERVICES,
    hyphened,
)
from hts.syntax.formula import Kind, Text

WELD_KINDS = Text(
    "girth-butt", "long-seam", "branch", "socket", "fillet", "attachment", "repair", "seal"
)

_SIZE = ("the size of the pipe", "`pipe NPS … schedule …`")
_WALL = ("the wall", "`wall … measured`")
_SERVICE = ("the service of the line", "`service …`")
#: Kinds of weld that have a measure of their own.
_BRANCH = ("branch",)
_FILLETED = ("socket", "fillet", "attachment", "seal")
_QUALIFIED = ("the qualification", "`qualified … hold … with toughness`")

FACTS: dict[str, FactKind] = {
    # Thickness
    "t": FactKind(
        LENGTH,
        "governing thickness, as the book at hand defines it",
        "joint",
        ("the governing thickness", "`governing thickness … mm`"),
    ),
    "wall": FactKind(LENGTH, "wall of this side at the weld", "side", _WALL),
    "thicker_wall": FactKind(
        LENGTH,
        "thicker of the walls joined",
        "joint",
        _WALL,
        worked_out="the larger of the walls joined",
    ),
    "thinner_wall": FactKind(
        LENGTH,
        "thinner of the walls joined",
        "joint",
        _WALL,
        worked_out="the smaller of the walls joined",
    ),
    "weld_thickness": FactKind(LENGTH, "thickness of the weld itself", "joint"),
    "throat": FactKind(
        LENGTH,
        "throat of a fillet, socket or seal weld",
        "joint",
        ("the throat of the weld", "`throat … mm`"),
        kinds=_FILLETED,
    ),
    "groove_depth": FactKind(
        LENGTH,
        "depth of a partial-penetration groove or of a repair cavity",
        "joint",
        ("the depth of the groove", "`groove depth … mm`"),
        seldom=True,
    ),
    "run_wall": FactKind(
        LENGTH, "wall of the run (header) at a branch", "joint", _WALL, kinds=_BRANCH
    ),
    "branch_wall": FactKind(LENGTH, "wall of the branch pipe", "joint", _WALL, kinds=_BRANCH),
    "pad_thickness": FactKind(
        LENGTH,
        "thickness of a reinforcing pad or saddle",
        "joint",
        ("the thickness of the pad", "`branch weld … pad … mm`"),
        kinds=_BRANCH,
    ),
    "fillet_cover": FactKind(
        LENGTH,
        "throat of the cover fillet of a branch weld",
        "joint",
        ("the cover fillet", "`branch weld … cover fillet … mm`"),
        kinds=_BRANCH,
    ),
    "branch_sketch": FactKind(
        Text("1", "2", "3", "4", "5"),
        "acceptable branch detail, by sketch number",
        "joint",
        ("the sketch of the branch weld", "`branch weld sketch …`"),
        kinds=_BRANCH,
    ),
    # Size and shape
    "outside_diameter": FactKind(LENGTH, "outside diameter", "side", _SIZE),
    "inside_diameter": FactKind(
        LENGTH, "inside diameter", "side", _SIZE, worked_out="from outside diameter and wall"
    ),
    "inside_radius": FactKind(
        LENGTH, "inside radius", "side", _SIZE, worked_out="from outside diameter and wall"
    ),
    "girth": FactKind(
        LENGTH,
        "length of the weld round the outside",
        "side",
        _SIZE,
        worked_out="from its diameter",
    ),
    "nominal_size": FactKind(
        COUNT,
        "nominal pipe size in inches (NPS)",
        "side",
        # An outside diameter may be stated that is no nominal size.
        ("the nominal size of the pipe (NPS)", "`pipe NPS … schedule …`"),
    ),
    "cap_width": FactKind(
        LENGTH, "greatest width of the weld", "joint", ("the width of the weld", "`cap width … mm`")
    ),
    "weld_kind": FactKind(WELD_KINDS, "kind of weld", "joint"),
    "axis": FactKind(
        Text("horizontal", "vertical", "inclined"),
        "direction of the pipe",
        "joint",
        ("how the pipe lies", "`axis horizontal`"),
    ),
    "heating_method": FactKind(
        Text("resistance", "induction", "furnace", "gas"),
        "how it is heated",
        "joint",
        ("the heating method", "`heating by …`"),
    ),
    "layers": FactKind(
        Text("single", "multiple"),
        "layers of weld metal",
        "joint",
        ("the layers of the weld", "`welding … layers multiple`"),
    ),
    "part": FactKind(
        Text(*hyphened(PARTS)),
        "kind of part, such as pipe or vessel-shell",
        "side",
        ("the kind of part", "`side … part …`"),
    ),
    # Material
    "p_number": FactKind(
        Text(*P_NUMBERS),
        "P-number of the base metal (ASME IX)",
        "side",
        ("the P-number", "`p-number …` of the material"),
    ),
    "more_alloyed": FactKind(
        Text("yes", "no"),
        "whether it is the more highly alloyed of two ferritic steels; yes where they are alike",
        "side",
        ("the P-number of both sides", "`p-number …` of the materials"),
    ),
    "group_number": FactKind(
        Text(*GROUP_NUMBERS),
        "group number within the P-number",
        "side",
        ("the group within the P-number", "`group …` of the material"),
    ),
    "s_group": FactKind(
        Text(*S_GROUPS),
        "group of the base metal (US Navy S9074)",
        "side",
        ("the group of US Navy S9074", "`s-group …` of the material"),
    ),
    "preheat_category": FactKind(
        Text("A", "B", "C", "D"),
        "category of the base metal and process (AWS D1.1)",
        "side",
        ("the category of AWS D1.1", "`preheat category …` of the material"),
    ),
    "delivery_condition": FactKind(
        Text(*hyphened(CONDITIONS)),
        "condition the base metal is in, such as quenched-and-tempered",
        "side",
        ("the delivery condition", "`condition …` of the material"),
    ),
    "grade": FactKind(
        Text(), "grade of the base metal", "side", ("the grade", "`grade …` of the material")
    ),
    "en_group": FactKind(
        Text(*EN_GROUPS),
        "material group (ISO/TR 15608)",
        "side",
        ("the material group", "`en group …` of the material"),
    ),
    "carbon": FactKind(
        MASS_FRACTION,
        "carbon by analysis, or else as specified",
        "side",
        ("the carbon content", "`composition C … %` of the material"),
    ),
    "specified_carbon": FactKind(
        MASS_FRACTION,
        "most carbon the grade may have, or by analysis if that is more",
        "side",
        ("the carbon the grade allows", "`specified carbon … %` of the material"),
    ),
    "manganese": FactKind(
        MASS_FRACTION,
        "manganese by analysis",
        "side",
        ("the manganese content", "`composition Mn … %` of the material"),
    ),
    "chromium": FactKind(
        MASS_FRACTION,
        "nominal or measured chromium",
        "side",
        ("the chromium content", "`composition Cr … %` of the material"),
    ),
    "least_chromium": FactKind(
        MASS_FRACTION,
        "chromium of the part that has least",
        "joint",
        ("the chromium content", "`composition Cr … %` of the material"),
    ),
    "dissimilar": FactKind(
        Text("yes", "no"), "whether the P-numbers of the parts joined differ", "joint"
    ),
    "filler_chromium": FactKind(MASS_FRACTION, "chromium of the filler metal", "joint"),
    "filler_nickel_manganese": FactKind(
        MASS_FRACTION,
        "nickel plus manganese of the filler metal",
        "joint",
        (
            "nickel plus manganese of the filler",
            "`nickel and manganese … %` of the filler and `welding … filler …`",
        ),
    ),
    "tensile_strength": FactKind(
        STRESS,
        "specified minimum tensile strength",
        "side",
        ("the tensile strength", "`tensile strength …` of the material"),
    ),
    "lower_critical": FactKind(
        TEMPERATURE,
        "lower critical temperature of the base metal",
        "side",
        ("the lower critical temperature", "`lower critical …` of the material"),
    ),
    "filler_lower_critical": FactKind(
        TEMPERATURE,
        "lower critical temperature of the filler metal",
        "joint",
        (
            "the lower critical temperature of the filler",
            "`lower critical … degC` of the filler and `welding … filler …`",
        ),
    ),
    "tempering_temperature": FactKind(
        TEMPERATURE,
        "temperature the base metal was tempered at",
        "side",
        ("the tempering temperature", "`tempered at …` of the material"),
    ),
    # What the specification states or a book has derived
    "heat_input": FactKind(
        HEAT_INPUT,
        "heat input of welding",
        "joint",
        ("the heat input", "`welding … heat input … kJ/mm`"),
    ),
    "diffusible_hydrogen": FactKind(
        HYDROGEN,
        "diffusible hydrogen of the deposit",
        "joint",
        ("the hydrogen of the deposit", "`diffusible hydrogen … ml/100g` of the filler"),
    ),
    "preheat_by_cet": FactKind(
        TEMPERATURE,
        "preheat by EN 1011-2 method B: CET 0.2 to 0.5 %, 10 to 90 mm, 1 to 20 ml/100g, "
        "0.5 to 4 kJ/mm, and no value beyond",
        "joint",
        (
            "what EN 1011-2 method B is worked out from, within the range it holds for",
            "`composition C … %, Mn … %` of the materials, `diffusible hydrogen` of the filler, "
            "`welding … heat input`",
        ),
    ),
    "preheat": FactKind(
        TEMPERATURE, "least preheat stated", "joint", ("the preheat", "`preheat … at least …`")
    ),
    "soak_band": FactKind(LENGTH, "soak band, total width", "joint"),
    "heated_band": FactKind(LENGTH, "heated band, total width", "joint"),
    "band_ratio": FactKind(
        COUNT,
        "heated outside area to wall section and inside area over the soak band, as stated",
        "joint",
        ("the band ratio", "`band ratio 5`"),
    ),
    "zones": FactKind(COUNT, "control zones round the pipe", "joint"),
    "hold_minimum": FactKind(
        TEMPERATURE,
        "lower end of the hold range stated",
        "cycle",
        ("the hold range", "`hold … .. … for …`"),
    ),
    "hold_maximum": FactKind(
        TEMPERATURE,
        "upper end of the hold range stated",
        "cycle",
        ("the hold range", "`hold … .. … for …`"),
    ),
    "lowered_by": FactKind(
        DIFFERENCE, "how far below the book's least the designer lets the hold go", "cycle"
    ),
    "treatment_asked_for": FactKind(
        Text("yes", "no"), "whether designer or welding procedure ask for it", "joint"
    ),
    "single_pass_qualified": FactKind(
        Text("yes", "no"), "whether a single-pass weld was qualified as such", "joint"
    ),
    "qualified_hold": FactKind(
        TIME, "shortest hold of the qualifications with toughness tested", "joint", _QUALIFIED
    ),
    "qualified_preheat": FactKind(
        TEMPERATURE,
        "highest preheat of the qualifications",
        "joint",
        ("the preheat of the qualification", "`qualified … preheat …`"),
    ),
    "qualified_thickness": FactKind(
        LENGTH,
        "thickest test piece qualified without heat treatment",
        "joint",
        (
            "the thickness qualified without heat treatment",
            "`qualified … condition without heat treatment thickness … mm`",
        ),
        seldom=True,
    ),
    "toughness_tested": FactKind(
        Text("yes", "no"), "whether a qualification has toughness tested", "joint", _QUALIFIED
    ),
    "filler_kind": FactKind(
        Text("ferritic", "austenitic", "nickel"),
        "kind of filler metal",
        "joint",
        ("the kind of filler", "`nickel based` of the filler"),
    ),
    "service": FactKind(
        Text(*hyphened(SERVICES)),
        "what the part contains, such as amine; of several, each",
        "joint",
        _SERVICE,
    ),
    "lethal_service": FactKind(
        Text("yes", "no"), "whether the contents are lethal", "joint", _SERVICE
    ),
    "amine_or_caustic_service": FactKind(
        Text("yes", "no"), "whether the contents are amine or caustic", "joint", _SERVICE
    ),
    "carbonate_service": FactKind(
        Text("yes", "no"), "whether the contents are carbonate", "joint", _SERVICE
    ),
    "sour_service": FactKind(
        Text("yes", "no"), "whether the contents hold wet hydrogen sulphide", "joint", _SERVICE
    ),
    **FACTS_OF_WELD,
}

FACT_KINDS: dict[str, Kind] = {name: fact.kind for name, fact in FACTS.items()}
"""Name -> kind, as a unit check wants them."""
