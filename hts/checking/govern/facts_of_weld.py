"""The pair of metals, the way a weld is made, and what it has been through, as facts."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from hts.base.quantities import MASS_FRACTION, TIME, Quantity
from hts.language.model.joint import Joint
from hts.language.model.side import Side
from hts.language.vocabulary.joint import Welding
from hts.language.vocabulary.material import Filler, Material
from hts.limits.words import P_NUMBERS
from hts.science.metallurgy.composition import Formula
from hts.science.tables.fillers import family
from hts.science.tables.welding_processes import answers_to, processes
from hts.syntax.formula import Fact, Words


def facts_of_weld(joint: Joint) -> dict[str, Fact]:
    """What is the same for all sides."""
    facts: dict[str, Fact] = {}
    entry = joint.entry
    figures = [side.figure("p_number") for side in joint.sides]
    numbers = [str(figure.value) for figure in figures if figure is not None]
    if numbers and len(numbers) == len(figures) and all(each in P_NUMBERS for each in numbers):
        ordered = sorted(numbers, key=P_NUMBERS.index)
        facts["lowest_p_number"], facts["highest_p_number"] = ordered[0], ordered[-1]
    if entry.made is not None:
        facts["made_in"] = entry.made
    if entry.welding is not None:
        facts.update(_welding(entry.welding))
    if entry.heating is not None and entry.heating.part_length is not None:
        facts["part_length"] = entry.heating.part_length
    facts["earlier_treatments"] = len(entry.earlier)
    spent = sum((one.time.value for one in entry.earlier), Fraction(0))
    facts["earlier_hold"] = Quantity.of_base(spent, TIME, "h")
    return facts


def _welding(entry: Welding) -> dict[str, Fact]:
    """Processes by all the names they answer to, positions, and the family of the filler."""
    facts: dict[str, Fact] = {}
    named = [name for each in processes(entry.process or "") for name in answers_to(each)]
    if named:
        facts["process"] = Words(dict.fromkeys(named))
    if entry.position:
        facts["position"] = Words(entry.position) if entry.position[1:] else entry.position[0]
    filler = entry.filler.target if entry.filler is not None else None
    if isinstance(filler, Filler) and filler.classification is not None:
        known = family(filler.classification)
        if known is not None:
            facts["filler_family"] = known
    return facts


def equivalents(side: Side) -> dict[str, Fact]:
    """Carbon equivalents of one side, exact, where its analysis gives carbon and manganese."""
    return _equivalents(side.material) if side.material is not None else {}


@lru_cache(maxsize=64)
def _equivalents(material: Material) -> dict[str, Fact]:
    """Of one material; many joints have the same. Not to be changed."""
    shares = {share.element: share.fraction.value for share in material.composition}
    if "C" not in shares or "Mn" not in shares:
        return {}
    # Few joints state an analysis: the formulas are read only for those that do.
    from hts.science.metallurgy.carbon_equivalent import CE, PCM

    return {"carbon_equivalent": _exact(CE, shares), "pcm": _exact(PCM, shares)}


def _exact(formula: Formula, shares: dict[str, Fraction]) -> Quantity:
    """The formula without rounding: its coefficients are fractions of small numbers."""
    total = sum(
        (
            Fraction(factor).limit_denominator(100) * shares.get(element, Fraction(0))
            for element, factor in formula.coefficients.items()
        ),
        Fraction(0),
    )
    return Quantity.of(total, "%", MASS_FRACTION)
