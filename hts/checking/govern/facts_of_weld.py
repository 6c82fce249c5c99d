"""The pair of metals, the way a weld is made, and what it has been through, as facts."""

from __future__ import annotations

from fractions import Fraction
from functools import cache, lru_cache

from hts.base.quantities import MASS_FRACTION, TIME, Quantity
from hts.language.model.joint import Joint
from hts.language.model.side import Side
from hts.language.vocabulary.joint import Welding
from hts.language.vocabulary.material import Filler
from hts.limits.words import P_NUMBERS
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
    heavy = [one.wall for one in entry.heavy_sections if one.wall is not None]
    if heavy:
        facts["heavy_wall"] = max(heavy)
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
    if side.material is None or not side.material.composition:
        return {}
    return _equivalents(
        tuple(
            (share.element, *share.fraction.value.as_integer_ratio())
            for share in side.material.composition
        )
    )


@lru_cache(maxsize=256)
def _equivalents(composition: tuple[tuple[str, int, int], ...]) -> dict[str, Fact]:
    """Of one analysis; many materials have the same. Not to be changed."""
    shares = {element: Fraction(over, under) for element, over, under in composition}
    if "C" not in shares or "Mn" not in shares:
        return {}
    return {
        name: Quantity.of(_sum(factors, shares), "%", MASS_FRACTION)
        for name, factors in _factors().items()
    }


def _sum(factors: dict[str, Fraction], shares: dict[str, Fraction]) -> Fraction:
    parts = (factors[each] * share for each, share in shares.items() if each in factors)
    return sum(parts, Fraction(0))


@cache
def _factors() -> dict[str, dict[str, Fraction]]:
    """The factors of the elements without rounding: they are fractions of small numbers."""
    # Few joints state an analysis: the formulas are read only for those that do.
    from hts.science.metallurgy.carbon_equivalent import CE, PCM

    return {
        name: {
            element: Fraction(factor).limit_denominator(100)
            for element, factor in formula.coefficients.items()
        }
        for name, formula in (("carbon_equivalent", CE), ("pcm", PCM))
    }
