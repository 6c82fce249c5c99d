"""The facts a formula may use: a closed list, so that a slip in a name is an error, not a gap."""

from __future__ import annotations

from typing import Literal, NamedTuple

from hts.base.quantities import COUNT, DIFFERENCE, LENGTH, MASS_FRACTION, STRESS, TEMPERATURE, TIME
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

Per = Literal["joint", "side", "cycle"]


class FactKind(NamedTuple):
    """What a fact is, what it means, and what it belongs to.

    A fact per side can differ between the two parts joined; a formula that uses one is evaluated
    for each side.
    """

    kind: Kind
    meaning: str
    per: Per


WELD_KINDS = Text(
    "girth-butt", "long-seam", "branch", "socket", "fillet", "attachment", "repair", "seal"
)

FACTS: dict[str, FactKind] = {
    # Thickness
    "t": FactKind(LENGTH, "governing thickness, as the book at hand defines it", "joint"),
    "wall": FactKind(LENGTH, "wall of this side at the weld", "side"),
    "thicker_wall": FactKind(LENGTH, "thicker of the walls joined", "joint"),
    "thinner_wall": FactKind(LENGTH, "thinner of the walls joined", "joint"),
    "weld_thickness": FactKind(LENGTH, "thickness of the weld itself", "joint"),
    "throat": FactKind(LENGTH, "throat of a fillet, socket or seal weld", "joint"),
    "groove_depth": FactKind(
        LENGTH, "depth of a partial-penetration groove or of a repair cavity", "joint"
    ),
    "run_wall": FactKind(LENGTH, "wall of the run (header) at a branch", "joint"),
    "branch_wall": FactKind(LENGTH, "wall of the branch pipe", "joint"),
    "pad_thickness": FactKind(LENGTH, "thickness of a reinforcing pad or saddle", "joint"),
    "fillet_cover": FactKind(LENGTH, "throat of the cover fillet of a branch weld", "joint"),
    "branch_sketch": FactKind(
        Text("1", "2", "3", "4", "5"), "acceptable branch detail, by sketch number", "joint"
    ),
    # Size and shape
    "outside_diameter": FactKind(LENGTH, "outside diameter", "side"),
    "inside_diameter": FactKind(LENGTH, "inside diameter", "side"),
    "inside_radius": FactKind(LENGTH, "inside radius", "side"),
    "nominal_size": FactKind(COUNT, "nominal pipe size in inches (NPS)", "side"),
    "cap_width": FactKind(LENGTH, "greatest width of the weld", "joint"),
    "weld_kind": FactKind(WELD_KINDS, "kind of weld", "joint"),
    "axis": FactKind(Text("horizontal", "vertical", "inclined"), "direction of the pipe", "joint"),
    "heating_method": FactKind(
        Text("resistance", "induction", "furnace", "gas"), "how it is heated", "joint"
    ),
    "layers": FactKind(Text("single", "multiple"), "layers of weld metal", "joint"),
    "part": FactKind(Text(*hyphened(PARTS)), "kind of part, such as pipe or vessel-shell", "side"),
    # Material
    "p_number": FactKind(Text(*P_NUMBERS), "P-number of the base metal (ASME IX)", "side"),
    "more_alloyed": FactKind(
        Text("yes", "no"),
        "whether it is the more highly alloyed of two ferritic steels; yes where they are alike",
        "side",
    ),
    "group_number": FactKind(Text(*GROUP_NUMBERS), "group number within the P-number", "side"),
    "s_group": FactKind(Text(*S_GROUPS), "group of the base metal (US Navy S9074)", "side"),
    "preheat_category": FactKind(
        Text("A", "B", "C", "D"), "category of the base metal and process (AWS D1.1)", "side"
    ),
    "delivery_condition": FactKind(
        Text(*hyphened(CONDITIONS)),
        "condition the base metal is in, such as quenched-and-tempered",
        "side",
    ),
    "grade": FactKind(Text(), "grade of the base metal", "side"),
    "en_group": FactKind(Text(*EN_GROUPS), "material group (ISO/TR 15608)", "side"),
    "carbon": FactKind(MASS_FRACTION, "carbon by analysis, or else as specified", "side"),
    "specified_carbon": FactKind(
        MASS_FRACTION, "most carbon the grade may have, or by analysis if that is more", "side"
    ),
    "chromium": FactKind(MASS_FRACTION, "nominal or measured chromium", "side"),
    "least_chromium": FactKind(MASS_FRACTION, "chromium of the part that has least", "joint"),
    "filler_nickel_manganese": FactKind(
        MASS_FRACTION, "nickel plus manganese of the filler metal", "joint"
    ),
    "tensile_strength": FactKind(STRESS, "specified minimum tensile strength", "side"),
    "lower_critical": FactKind(TEMPERATURE, "lower critical temperature of the base metal", "side"),
    "filler_lower_critical": FactKind(
        TEMPERATURE, "lower critical temperature of the filler metal", "joint"
    ),
    "tempering_temperature": FactKind(
        TEMPERATURE, "temperature the base metal was tempered at", "side"
    ),
    # What the specification states or a book has derived
    "preheat": FactKind(TEMPERATURE, "least preheat stated", "joint"),
    "soak_band": FactKind(LENGTH, "soak band, total width", "joint"),
    "heated_band": FactKind(LENGTH, "heated band, total width", "joint"),
    "band_ratio": FactKind(
        COUNT,
        "heated outside area to wall section and inside area over the soak band, as stated",
        "joint",
    ),
    "zones": FactKind(COUNT, "control zones round the pipe", "joint"),
    "hold_minimum": FactKind(TEMPERATURE, "lower end of the hold range stated", "cycle"),
    "hold_maximum": FactKind(TEMPERATURE, "upper end of the hold range stated", "cycle"),
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
        TIME, "shortest hold of the qualifications with toughness tested", "joint"
    ),
    "qualified_preheat": FactKind(TEMPERATURE, "highest preheat of the qualifications", "joint"),
    "qualified_thickness": FactKind(
        LENGTH, "thickest test piece qualified without heat treatment", "joint"
    ),
    "toughness_tested": FactKind(
        Text("yes", "no"), "whether a qualification has toughness tested", "joint"
    ),
    "filler_kind": FactKind(
        Text("ferritic", "austenitic", "nickel"), "kind of filler metal", "joint"
    ),
    "service": FactKind(
        Text(*hyphened(SERVICES)),
        "what the part contains, such as amine; of several, each",
        "joint",
    ),
    "lethal_service": FactKind(Text("yes", "no"), "whether the contents are lethal", "joint"),
    "amine_or_caustic_service": FactKind(
        Text("yes", "no"), "whether the contents are amine or caustic", "joint"
    ),
    "carbonate_service": FactKind(Text("yes", "no"), "whether the contents are carbonate", "joint"),
    "sour_service": FactKind(
        Text("yes", "no"), "whether the contents hold wet hydrogen sulphide", "joint"
    ),
}

FACT_KINDS: dict[str, Kind] = {name: fact.kind for name, fact in FACTS.items()}
"""Name -> kind, as a unit check wants them."""
