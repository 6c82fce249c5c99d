"""One side of a joint: its material, its size, and where each figure comes from."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.base.text import Span
from hts.language.vocabulary.material import Material
from hts.science.tables.grades import Grade


class Figure(NamedTuple):
    """A value with its origin: stated in the text, or looked up in a table."""

    value: Quantity | str
    origin: str
    basis: str  # "stated", or the basis of the table
    at: Span | None = None
    also: Quantity | None = None


class Side:
    """One side of a joint. A figure nobody gave is None."""

    __slots__ = (
        "grade",
        "material",
        "name",
        "nominal_size",
        "outside_diameter",
        "schedule",
        "wall",
        "wall_taken",
    )

    def __init__(self, name: str) -> None:
        self.name = name
        self.material: Material | None = None
        self.grade: Grade | None = None
        self.outside_diameter: Figure | None = None
        self.wall: Figure | None = None
        #: "measured", "nominal", or None where the text does not say.
        self.wall_taken: str | None = None
        self.nominal_size: Fraction | None = None
        self.schedule: str | None = None

    @property
    def inside_diameter(self) -> Quantity | None:
        """Outside diameter less two walls."""
        if self.outside_diameter is None or self.wall is None:
            return None
        outside, wall = self.outside_diameter.value, self.wall.value
        assert isinstance(outside, Quantity) and isinstance(wall, Quantity)
        inside = outside - wall - wall
        return inside if inside.value > 0 else None

    def figure(self, name: str) -> Figure | None:
        """A property of the material: as the text states it, else as the grade has it.

        ``name``: p_number, group, en_group, tensile_strength, lower_critical, carbon, chromium,
        manganese, tempering_temperature.
        """
        return _figure(self.material, self.grade, name) if self.material is not None else None


@lru_cache(maxsize=256)
def _figure(material: Material, grade: Grade | None, name: str) -> Figure | None:
    """Of one material; hundreds of joints have the same."""
    if name == "specified_carbon":
        return _specified_carbon(material, grade)
    stated = _stated(material, name)
    if stated is not None:
        return stated
    looked_up = getattr(grade, _TABLE_NAMES[name], None) if name in _TABLE_NAMES else None
    if looked_up is None:
        return None
    assert grade is not None
    origin = f"{grade.name}: {looked_up.source}"
    return Figure(looked_up.value, origin, looked_up.basis, also=looked_up.also)


def _specified_carbon(material: Material, grade: Grade | None) -> Figure | None:
    """The most carbon the grade may have, as stated or by its table; what the analysis gives where
    that is more. None where only an analysis is known: it may be a lucky one."""
    stated = _stated(material, "specified_carbon")
    table = grade.carbon_maximum if grade is not None else None
    if stated is None and table is not None and grade is not None:
        stated = Figure(table.value, f"{grade.name}: {table.source}", table.basis)
    measured = _stated(material, "carbon")
    if stated is None or measured is None:
        return stated
    known = (stated, measured)
    return max(known, key=lambda figure: figure.value)


_TABLE_NAMES = {
    "p_number": "p_number",
    "group": "group",
    "en_group": "iso_15608",
    "tensile_strength": "tensile_minimum",
    "lower_critical": "ac1",
    "carbon": "carbon_maximum",
    "chromium": "chromium_nominal",
}
_ELEMENTS = {"carbon": "C", "chromium": "Cr", "manganese": "Mn"}


def _stated(material: Material, name: str) -> Figure | None:
    if name in _ELEMENTS:
        for share in material.composition:
            if share.element == _ELEMENTS[name]:
                return Figure(
                    share.fraction,
                    f"analysis of {material.name}",
                    "stated",
                    material.place("composition"),
                )
        return None
    if name == "tempering_temperature":
        tempered = material.tempered
        if tempered is None or tempered.at is None:
            return None
        return Figure(tempered.at, f"material {material.name}", "stated", tempered.place("at"))
    value = getattr(material, name)
    if value is None:
        return None
    return Figure(value, f"material {material.name}", "stated", material.place(name))
