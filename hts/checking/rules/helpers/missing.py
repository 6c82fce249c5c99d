"""Facts that limits hang on: what they are called on the job, and the entry that states them."""

from __future__ import annotations

from collections.abc import Iterable

from hts.language.model.joint import Joint
from hts.limits import FACTS, Unanswered

_SIZE = ("the size of the pipe", "`pipe NPS … schedule …`")
_WALL = ("the wall", "`wall … measured`")
_SERVICE = ("the service of the line", "`service …`")
_QUALIFIED = ("the qualification", "`qualified … hold … with toughness`")
#: Fact -> what it is called, and how it is stated; other facts have no entry of their own.
_ENTRIES = {
    "t": ("the governing thickness", "`governing thickness … mm`"),
    "wall": _WALL,
    "thicker_wall": _WALL,
    "thinner_wall": _WALL,
    "run_wall": _WALL,
    "branch_wall": _WALL,
    "outside_diameter": _SIZE,
    "inside_diameter": _SIZE,
    "inside_radius": _SIZE,
    "nominal_size": _SIZE,
    "throat": ("the throat of the weld", "`throat … mm`"),
    "groove_depth": ("the depth of the groove", "`groove depth … mm`"),
    "cap_width": ("the width of the weld", "`cap width … mm`"),
    "fillet_cover": ("the cover fillet", "`branch weld … cover fillet … mm`"),
    "pad_thickness": ("the thickness of the pad", "`branch weld … pad … mm`"),
    "branch_sketch": ("the sketch of the branch weld", "`branch weld sketch …`"),
    "axis": ("how the pipe lies", "`axis horizontal`"),
    "heating_method": ("the heating method", "`heating by …`"),
    "layers": ("the layers of the weld", "`welding … layers multiple`"),
    "p_number": ("the P-number", "`p-number …` of the material"),
    "more_alloyed": ("the P-number of both sides", "`p-number …` of the materials"),
    "group_number": ("the group within the P-number", "`group …` of the material"),
    "grade": ("the grade", "`grade …` of the material"),
    "en_group": ("the material group", "`en group …` of the material"),
    "carbon": ("the carbon content", "`composition C … %` of the material"),
    "specified_carbon": (
        "the carbon the grade allows",
        "`specified carbon … %` of the material",
    ),
    "chromium": ("the chromium content", "`composition Cr … %` of the material"),
    "tensile_strength": ("the tensile strength", "`tensile strength …` of the material"),
    "lower_critical": ("the lower critical temperature", "`lower critical …` of the material"),
    "tempering_temperature": ("the tempering temperature", "`tempered at …` of the material"),
    "filler_nickel_manganese": (
        "nickel plus manganese of the filler",
        "`nickel and manganese … %` of the filler and `welding … filler …`",
    ),
    "filler_lower_critical": (
        "the lower critical temperature of the filler",
        "`lower critical … degC` of the filler and `welding … filler …`",
    ),
    "filler_kind": ("the kind of filler", "`nickel based` of the filler"),
    "preheat": ("the preheat", "`preheat … at least …`"),
    "hold_minimum": ("the hold range", "`hold … .. … for …`"),
    "hold_maximum": ("the hold range", "`hold … .. … for …`"),
    "service": _SERVICE,
    "lethal_service": _SERVICE,
    "amine_or_caustic_service": _SERVICE,
    "carbonate_service": _SERVICE,
    "sour_service": _SERVICE,
    "part": ("the kind of part", "`side … part …`"),
    "s_group": ("the group of US Navy S9074", "`s-group …` of the material"),
    "preheat_category": ("the category of AWS D1.1", "`preheat category …` of the material"),
    "delivery_condition": ("the delivery condition", "`condition …` of the material"),
    "least_chromium": ("the chromium content", "`composition Cr … %` of the material"),
    "qualified_hold": _QUALIFIED,
    "toughness_tested": _QUALIFIED,
    "qualified_preheat": ("the preheat of the qualification", "`qualified … preheat …`"),
    "qualified_thickness": (
        "the thickness qualified without heat treatment",
        "`qualified … condition without heat treatment thickness … mm`",
    ),
    "band_ratio": ("the band ratio", "`band ratio 5`"),
}
_OF_MATERIAL = (
    "p_number",
    "group_number",
    "en_group",
    "carbon",
    "specified_carbon",
    "chromium",
    "tensile_strength",
    "lower_critical",
    "grade",
)
_OF_SIZE = (
    "wall",
    "thicker_wall",
    "thinner_wall",
    "run_wall",
    "branch_wall",
    "outside_diameter",
    "inside_diameter",
    "inside_radius",
    "nominal_size",
)


def wanted(names: Iterable[str]) -> tuple[str, str]:
    """The facts in words a technician knows, and the entries that state them."""
    entry_of: dict[str, str] = {}
    for name in names:
        words, entry = _ENTRIES.get(name) or (
            FACTS[name].meaning if name in FACTS else name.replace("_", " "),
            "",
        )
        entry_of[words] = entry
    return " and ".join(entry_of), ", ".join(entry for entry in entry_of.values() if entry)


def merged(items: Iterable[Unanswered]) -> list[tuple[tuple[str, ...], list[Unanswered]]]:
    """Limits that lack a fact in common, together with all the facts they lack."""
    groups: list[tuple[dict[str, None], list[Unanswered]]] = []
    for item in items:
        names = dict.fromkeys(item.names)
        members = [item]
        rest = []
        for known, others in groups:
            if names.keys() & known.keys() or (not names and not known):
                names = {**known, **names}
                members = [*others, *members]
            else:
                rest.append((known, others))
        groups = [*rest, (names, members)]
    return [(tuple(sorted(names)), members) for names, members in groups]


def already_told(joint: Joint) -> tuple[str, ...]:
    """Facts that are missing because a size, a grade or a material was reported as unknown."""
    sized = [joint.entry.pipe, *joint.entry.sides]
    unknown_size = any(
        entry_of is not None and (entry_of.nps is not None or entry_of.dn is not None)
        for entry_of in sized
    ) and any(side.outside_diameter is None or side.wall is None for side in joint.sides)
    named = [part for part in (joint.entry.between, *joint.entry.sides) if part is not None]
    unknown_grade = not all(part.sound for part in named) or any(
        not material.sound
        or (material.grade is not None and side.grade is None and material.p_number is None)
        for side in joint.sides
        if (material := side.material) is not None
    )
    return (*(_OF_SIZE if unknown_size else ()), *(_OF_MATERIAL if unknown_grade else ()))
