"""Lower critical temperatures of all that is joined: base metals and filler, from every source."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hts.base.quantities import TEMPERATURE, Quantity
from hts.base.text import Span
from hts.language.model.joint import Joint
from hts.language.model.side import Side
from hts.language.vocabulary.material import Filler
from hts.language.vocabulary.types import Share

#: Where 9Cr steel and its deposits begin, mass % of chromium.
_NINE_CHROMIUM = 7.5


class Critical(NamedTuple):
    """A lower critical temperature: of what, on whose word, and how well known.

    ``estimated``: worked out from an analysis; the formulas are fits, so no margin is asked on top.
    """

    value: Quantity
    part: str
    origin: str
    basis: str
    at: Span | None = None
    estimated: bool = False


def criticals(joint: Joint) -> list[Critical]:
    """Every figure there is for the base metals and the filler of a joint, the lowest first."""
    found = [figure for side in joint.sides for figure in _of_side(side)]
    welding = joint.entry.welding
    filler = welding.filler.target if welding is not None and welding.filler is not None else None
    if isinstance(filler, Filler):
        found += _of_filler(filler)
    return sorted(found, key=lambda figure: figure.value.value)


def _of_side(side: Side) -> Iterator[Critical]:
    material = side.material
    if material is None:
        return
    part = f"the {side.name} side"
    if material.lower_critical is not None:
        at = material.place("lower_critical")
        yield Critical(material.lower_critical, part, f"material {material.name}", "stated", at)
    table = side.grade.ac1 if side.grade is not None else None
    if table is not None and side.grade is not None:
        yield Critical(table.value, part, f"{side.grade.name}: {table.source}", table.basis)
    if material.composition:
        known = material.lower_critical is not None or table is not None
        yield from _analysed(
            material.composition, part, material.name, material.place("composition"), known
        )


def _of_filler(filler: Filler) -> Iterator[Critical]:
    part = f"the filler {filler.name}"
    stated = filler.lower_critical
    if stated is not None:
        at = filler.place("lower_critical")
        yield Critical(stated, part, f"filler {filler.name}", "stated", at)
    if filler.nickel_based:
        return
    from hts.science.tables.fillers import BASIS, deposit

    named = deposit(filler.classification) if filler.classification else None
    table = named.lower_critical if named is not None else None
    if named is not None and table is not None:
        value = Quantity.of(table, "degC", TEMPERATURE)
        yield Critical(value, part, f"deposit of {named.name}", BASIS, filler.place())
    if filler.composition:
        known = stated is not None or table is not None
        yield from _analysed(
            filler.composition, part, filler.name, filler.place("composition"), known
        )


def _analysed(
    composition: list[Share], part: str, name: str, at: Span, known: bool
) -> Iterator[Critical]:
    """What the analysis gives: by the formula for 9Cr steel, or for low-alloy steel where there is
    no better figure. Nothing where the analysis lacks what the formula needs."""
    analysis = {share.element: float(share.fraction.value) for share in composition}
    chromium = analysis.get("Cr", 0.0)
    nine = chromium >= _NINE_CHROMIUM
    if not nine and (known or chromium > 5):
        return
    from hts.science.metallurgy.transformation import ANDREWS, SANTELLA_91, SANTELLA_T92

    tungsten = analysis.get("W", 0.0) > 1
    formula = (SANTELLA_T92 if tungsten else SANTELLA_91) if nine else ANDREWS
    estimate = formula(analysis)
    if (nine and estimate.missing) or (not nine and not {"Mn", "Si"} <= analysis.keys()):
        return
    value = Quantity.of(int(estimate.value), "degC", TEMPERATURE)
    basis = "derived" if nine else "practice"
    origin = f"analysis of {name}, after {estimate.origin.standard} {estimate.origin.edition}"
    yield Critical(value, part, origin, basis, at, estimated=True)
