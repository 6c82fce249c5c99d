"""Facts that limits depend on and the text does not state."""

from __future__ import annotations

from collections.abc import Iterable

from hts.language.model.joint import Joint
from hts.limits import FACTS, Unanswered

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
        fact = FACTS.get(name)
        words, entry = fact.stated if fact is not None else ("", "")
        entry_of[words or (fact.meaning if fact is not None else name.replace("_", " "))] = entry
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
