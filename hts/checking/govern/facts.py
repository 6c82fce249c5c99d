"""The facts of a joint under the names that formulas use."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import LENGTH, Interval, Quantity
from hts.base.quantities.number import read_number
from hts.checking.govern.facts_of_weld import equivalents, facts_of_weld
from hts.checking.govern.preheat import facts_of_preheat
from hts.language.model.joint import Joint, Treatment
from hts.language.model.side import Figure, Side
from hts.language.vocabulary.material import Filler
from hts.language.vocabulary.segments import Hold
from hts.language.vocabulary.types import Multiple, WidthValue
from hts.limits.dissimilar import ranked
from hts.science.tables.grades import GradeName
from hts.syntax.formula import Fact, Words

_NICKEL_FILLER = "nickel"
_SERVICES = {
    "lethal_service": ("lethal",),
    "amine_or_caustic_service": ("amine", "caustic"),
    "carbonate_service": ("carbonate",),
    "sour_service": ("wet hydrogen sulphide",),
}


class OfJoint(NamedTuple):
    """What is the same for every treatment of a joint: the facts of the whole, and those that each
    side has besides. Not to be changed."""

    whole: dict[str, Fact]
    sides: dict[str, dict[str, Fact]]


def facts_by_side(joint: Joint, treatment: Treatment | None) -> dict[str, dict[str, Fact]]:
    """Facts of each side, those of the whole joint repeated in each.

    A fact the text does not give is absent, never guessed: a limit that needs it is reported as
    undecided.
    """
    return with_treatment(of_joint(joint), joint, treatment)


def of_joint(joint: Joint) -> OfJoint:
    """The facts of a joint, whatever treatment it is given."""
    parts = _parts(joint)
    sides: dict[str, dict[str, Fact]] = {}
    last: tuple[Side, dict[str, Fact]] | None = None
    for side in joint.sides:
        # The two sides of a weld in a run of pipe have nothing apart.
        facts = last[1] if last is not None and _alike(side, last[0]) else _side_facts(side)
        last = side, facts
        sides[side.name] = {**parts.get(side.name, {}), **facts}
    return OfJoint(_joint_facts(joint), sides)


def _alike(side: Side, other: Side) -> bool:
    """Whether all that the facts of two sides are made from is the same, down to the unit."""
    return (
        side.material is other.material
        and side.grade is other.grade
        and _value(side.wall) is _value(other.wall)
        and _value(side.outside_diameter) is _value(other.outside_diameter)
        and side.nominal_size == other.nominal_size
    )


def _value(figure: Figure | None) -> object:
    return figure.value if figure is not None else None


def with_treatment(
    known: OfJoint, joint: Joint, treatment: Treatment | None
) -> dict[str, dict[str, Fact]]:
    """The same by side, as `facts_by_side` gives them, with those of a treatment."""
    common = known.whole
    if treatment is not None:
        common = {**common, **_treatment_facts(treatment)}
    made = ranked({name: {**common, **facts} for name, facts in known.sides.items()})
    return _from_tables(joint, made)


#: Circumference by diameter: more digits than any tape has.
_PI = Fraction(314159265, 100000000)
#: Entries of a joint that show in which system of units it is written.
_TELLING = ("cap_width", "throat", "groove_depth")


def _from_tables(joint: Joint, made: dict[str, dict[str, Fact]]) -> dict[str, dict[str, Fact]]:
    """Sizes that a table gives are in the units the joint is written in, whatever the table's.

    Pipe of 1.000 in by schedule is no thicker than 1 in for whoever works in inches.
    """
    figures = [f for side in joint.sides for f in (side.wall, side.outside_diameter) if f]
    written = [getattr(joint.entry, name) for name in _TELLING]
    written += [figure.value for figure in figures if figure.basis == "stated"]
    first = next((v for v in written if isinstance(v, Quantity) and v.dimension is LENGTH), None)
    if first is None or first.unit.system != "US" or all(f.basis == "stated" for f in figures):
        return made
    return {
        side: {name: _in_inches(fact) for name, fact in facts.items()}
        for side, facts in made.items()
    }


def _in_inches(fact: Fact) -> Fact:
    if isinstance(fact, Quantity) and fact.dimension is LENGTH and fact.unit.symbol == "mm":
        return fact.in_unit("in")
    return fact


def _put(facts: dict[str, Fact], name: str, value: object) -> None:
    if isinstance(value, Quantity | str):
        facts[name] = value


def _yes(facts: dict[str, Fact], name: str, stated: bool) -> None:
    """A fact that is known only where the text says it."""
    if stated:
        facts[name] = "yes"


def _joint_facts(joint: Joint) -> dict[str, Fact]:
    entry = joint.entry
    facts: dict[str, Fact] = {}
    _put(facts, "weld_kind", entry.kind and entry.kind.replace(" ", "-"))
    _put(facts, "t", entry.governing_thickness)
    _put(facts, "throat", entry.throat)
    _put(facts, "groove_depth", entry.groove_depth)
    _put(facts, "cap_width", entry.cap_width)
    _put(facts, "axis", entry.axis and entry.axis.lies)
    walls = [side.wall.value for side in joint.sides if side.wall is not None]
    if walls and len(walls) == len(joint.sides):
        facts["thicker_wall"] = max(walls)
        facts["thinner_wall"] = min(walls)
    for side in joint.sides:
        if side.name in ("run", "branch") and side.wall is not None:
            _put(facts, f"{side.name}_wall", side.wall.value)
    if entry.branch is not None:
        _put(facts, "branch_sketch", entry.branch.sketch)
        _put(facts, "fillet_cover", entry.branch.cover)
        _put(facts, "pad_thickness", entry.branch.pad)
    _yes(facts, "treatment_asked_for", entry.asked_for is not None)
    if entry.service:
        services = Words(_hyphened(service) for service in entry.service)
        facts["service"] = services if len(services) > 1 else services[0]
        # A line with several services is held to the rules for each of them.
        for name, words in _SERVICES.items():
            facts[name] = "yes" if any(word in words for word in entry.service) else "no"
    facts.update(facts_of_weld(joint))
    facts.update(_qualified_facts(joint))
    facts.update(facts_of_preheat(joint))
    chromium = [side.figure("chromium") for side in joint.sides]
    known = [figure.value for figure in chromium if figure is not None]
    if known and len(known) == len(chromium):
        facts["least_chromium"] = min(known)
    welding = entry.welding
    if welding is not None:
        _put(facts, "layers", welding.layers)
        _put(facts, "heat_input", welding.heat_input)
        filler = welding.filler.target if welding.filler else None
        if filler is not None:
            _put(facts, "filler_nickel_manganese", nickel_manganese(filler))
            _put(facts, "filler_lower_critical", filler.lower_critical)
            _put(facts, "diffusible_hydrogen", filler.hydrogen)
            shares = [share for share in filler.composition if share.element == "Cr"]
            if shares:
                _put(facts, "filler_chromium", shares[0].fraction)
            if filler.nickel_based:
                facts["filler_kind"] = _NICKEL_FILLER
    if joint.preheat is not None:
        _put(facts, "preheat", joint.preheat.at_least)
    heating = entry.heating
    if heating is not None:
        _put(facts, "heating_method", heating.method)
        zones = heating.zone_count if isinstance(heating.zone_count, int) else len(joint.zones)
        if zones:
            facts["zones"] = zones
        if heating.band_ratio is not None:
            facts["band_ratio"] = read_number(heating.band_ratio)
        for name in ("soak_band", "heated_band"):
            width = total_width(getattr(heating, name), entry.governing_thickness)
            _put(facts, name, width)
    return facts


def nickel_manganese(filler: Filler) -> Quantity | None:
    """Nickel plus manganese of a deposit: as stated or by its analysis, whichever is more."""
    shares = {share.element: share.fraction for share in filler.composition}
    sums = [filler.nickel_manganese] if filler.nickel_manganese is not None else []
    if "Ni" in shares and "Mn" in shares:
        sums.append(shares["Ni"] + shares["Mn"])
    return max(sums, default=None)


def _qualified_facts(joint: Joint) -> dict[str, Fact]:
    """What all the qualifications named cover together: every one of them has to fit."""
    tests = joint.entry.qualified
    if not tests:
        return {}
    tough = [test for test in tests if test.toughness]
    facts: dict[str, Fact] = {"toughness_tested": "yes" if tough else "no"}
    _yes(facts, "single_pass_qualified", any(test.single_pass for test in tests))
    holds = [test.hold for test in tough if test.hold is not None]
    preheats = [test.preheat for test in tests if test.preheat is not None]
    untreated = [
        test.thickness
        for test in tests
        if test.thickness is not None and test.condition == "without heat treatment"
    ]
    _put(facts, "qualified_hold", min(holds, default=None))
    _put(facts, "qualified_preheat", max(preheats, default=None))
    _put(facts, "qualified_thickness", max(untreated, default=None))
    return facts


def _parts(joint: Joint) -> dict[str, dict[str, Fact]]:
    """The kind of part on each side; both sides of a joint given as `pipe` are pipe."""
    entry = joint.entry
    named = {side.name: side.part for side in entry.sides if side.part is not None}
    if entry.pipe is not None:
        named = {**dict.fromkeys((side.name for side in joint.sides), "pipe"), **named}
    return {name: {"part": _hyphened(part)} for name, part in named.items()}


def _hyphened(words: str) -> str:
    return words.replace(" ", "-")


def _treatment_facts(treatment: Treatment) -> dict[str, Fact]:
    """The lowest and the highest temperature of its holds: limits are put to both ends of all."""
    ranges = [
        segment.range
        for segment in treatment.entry.segments
        if isinstance(segment, Hold) and isinstance(segment.range, Interval)
    ]
    facts: dict[str, Fact] = {}
    if treatment in treatment.joint.cycles:
        facts["cycle_number"] = treatment.joint.cycles.index(treatment) + 1
    _put(facts, "hold_minimum", min((r.low for r in ranges if r.low is not None), default=None))
    _put(facts, "hold_maximum", max((r.high for r in ranges if r.high is not None), default=None))
    return facts


def _side_facts(side: Side) -> dict[str, Fact]:
    facts: dict[str, Fact] = {}
    if side.wall is not None:
        _put(facts, "wall", side.wall.value)
    if side.outside_diameter is not None:
        _put(facts, "outside_diameter", side.outside_diameter.value)
        if isinstance(side.outside_diameter.value, Quantity):
            facts["girth"] = side.outside_diameter.value * _PI
    inside = side.inside_diameter
    if inside is not None:
        facts["inside_diameter"] = inside
        facts["inside_radius"] = inside / 2
    if side.nominal_size is not None:
        facts["nominal_size"] = side.nominal_size
    for name, fact in (
        ("p_number", "p_number"),
        ("group", "group_number"),
        ("en_group", "en_group"),
        ("carbon", "carbon"),
        ("specified_carbon", "specified_carbon"),
        ("chromium", "chromium"),
        ("manganese", "manganese"),
        ("lower_critical", "lower_critical"),
        ("tempering_temperature", "tempering_temperature"),
    ):
        figure = side.figure(name)
        if figure is not None:
            _put(facts, fact, figure.value)
    facts.update(equivalents(side))
    # A grade that may belong to either of two groups leaves open which: the text has to say.
    if "/" in str(facts.get("en_group", "")):
        del facts["en_group"]
    material = side.material
    if material is not None:
        _put(facts, "s_group", material.s_group)
        _put(facts, "preheat_category", material.preheat_category)
        _put(facts, "delivery_condition", material.condition and _hyphened(material.condition))
    strength = side.figure("tensile_strength")
    if strength is not None:
        _put(facts, "tensile_strength", strength.value)
    if side.grade is not None:
        facts["grade"] = GradeName(side.grade.name)
    elif side.material is not None and side.material.grade is not None:
        facts["grade"] = GradeName(side.material.grade)
    return facts


def total_width(width: object, thickness: object) -> Quantity | None:
    """A stated band as a total width; None where it is `by rule` or hangs on an unknown wall."""
    if not isinstance(width, WidthValue):
        return None
    amount: Quantity | None
    if isinstance(width.amount, Multiple):
        if not isinstance(thickness, Quantity):
            return None
        amount = Quantity.of(read_number(width.amount.factor) * thickness.value, "mm", LENGTH)
    else:
        amount = width.amount
    return amount * 2 if width.each_side else amount
