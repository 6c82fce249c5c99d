"""Size, number and power of the heaters fit the heated surface."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.base.quantities.clock import PI
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round, limits_of
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.heating import Heater, Heating

#: Part of the surface heaters may cover: gaps between them, or a little overlap.
_LEAST, _MOST = Fraction(60, 100), Fraction(120, 100)
#: How much less of its part a zone may be covered than another, as a part of that.
_UNLIKE = Fraction(72, 100)
#: How far a stated power density may be from the one worked out, as a part of it.
_APART = Fraction(30, 100)
_GAP = "    gap at         12:00\n"


def _rows(width: str, below: str = "") -> tuple[tuple[str, str], ...]:
    row = "    heater {} in {} power 4.5 kW count 2 width {} length 260 mm\n"
    rows = row.format("HT", "top", width) + row.format("HB", "bottom", below or width)
    return ((_GAP, f"{rows}{_GAP}"),)


RULE = Rule(
    "B109",
    "heaters-unlike-band",
    "warning",
    summary="Heaters that cover far less or far more than the heated surface, all together or in a "
    "zone, or a power density that is not the power over that surface.",
    why="Heaters ordered for another band leave cold places, or do not fit round the pipe.",
    fix="Check width, length and number of the heaters against the heated band.",
    source="arithmetic: surface of the heated band; what gaps and overlaps take is common practice",
    basis="practice",
    edges=(
        Edge(
            _rows("{}"),
            keeps="338 mm",
            breaks="337 mm",
            at="HT",
            says="3505 cm2 … has 5846 cm2",
        ),
        Edge(
            _rows("450 mm", "{}"),
            keeps="338 mm",
            breaks="337 mm",
            at="HB",
            says="zone bottom cover 1752 cm2 … has 2923 cm2",
        ),
        Edge(
            _rows("560 mm", "{}"),
            keeps="404 mm",
            breaks="403 mm",
            at="HB",
            says="cover 72 % … 100 %",
        ),
        Edge(
            (("    gap at         12:00\n", "    power density  {}\n    gap at         12:00\n"),),
            keeps="2.2 W/cm2",
            breaks="2.1 W/cm2",
            says="18 kW on 5846 cm2 is 3.1 W/cm2, not 2.1 W/cm2",
        ),
    ),
    good=(
        Good(_rows("550 mm")),
        Good(((_GAP, f"    power density  3.1 W/cm2\n{_GAP}"),)),
    ),
    agrees=(
        Agreement("joint.heating.heater.width", "joint.heating.heated band", "cover its surface"),
        Agreement("joint.heating.power density", "joint.heating.zone.power", "power over surface"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating, diameter = joint.entry.heating, joint.outside_diameter
    if heating is None or diameter is None or not goes_round(joint) or joint.entry.kind == "branch":
        return
    covered = _covered(joint, heating)
    if covered is None and heating.power_density is None:
        return
    band = limits_of(case, joint).band("heated band")
    if band is None:
        return
    surface = PI * diameter.value * band.value
    if covered is not None and not _LEAST <= covered / surface <= _MOST:
        _tell(
            case,
            joint,
            heating.heaters[0].place("name"),
            f"the heaters of {joint.name} cover {_cm2(covered)}, the heated band has "
            f"{_cm2(surface)}",
        )
    elif covered is not None:
        _zone_by_zone(case, joint, heating, surface)
    powers = [zone.entry.power for zone in joint.zones]
    density = heating.power_density
    if density is None or not powers or any(power is None for power in powers):
        return
    watts = sum((power.value for power in powers if power is not None), Fraction(0))
    made = watts / (surface / 100)
    if abs(density.value - made) > made * _APART:
        _tell(
            case,
            joint,
            heating.place("power_density"),
            f"{Quantity.of(watts, 'W', powers[0].dimension).in_unit('kW')} on {_cm2(surface)} is "  # type: ignore[union-attr]
            f"{float(made):.2g} W/cm2, not {density}",
        )


def _zone_by_zone(case: Case, joint: Joint, heating: Heating, surface: Fraction) -> None:
    """What one zone lacks is not made up for by another."""
    if heating.narrowing is not None or any(
        zone.entry.side not in (None, "both") for zone in joint.zones
    ):
        return
    shares: list[tuple[Fraction, str, Heater]] = []
    for zone in joint.zones:
        rows = [h for h in heating.heaters if h.zone is not None and h.zone.name == zone.name]
        if zone.arc is None or not rows:
            continue
        part = surface * zone.arc.span / 360
        covered = sum((_area(row) for row in rows), Fraction(0))
        if not _LEAST <= covered / part <= _MOST:
            _tell(
                case,
                joint,
                rows[0].place("name"),
                f"the heaters of zone {zone.name} cover {_cm2(covered)}, its part of the heated "
                f"band has {_cm2(part)}",
            )
            return
        shares.append((covered / part, zone.name, rows[0]))
    least = min(shares, key=lambda each: each[0], default=None)
    most = max(shares, key=lambda each: each[0], default=None)
    if least is not None and most is not None and least[0] < most[0] * _UNLIKE:
        _tell(
            case,
            joint,
            least[2].place("name"),
            f"the heaters of zone {least[1]} cover {round(float(least[0] * 100))} % of its part of the "
            f"heated band, those of zone {most[1]} {round(float(most[0] * 100))} % of theirs",
        )


def _area(heater: Heater) -> Fraction:
    """mm2 that a row of heaters with a width and a length covers."""
    assert heater.width is not None and heater.length is not None
    return heater.width.value * heater.length.value * (heater.count or 1)


def _covered(joint: Joint, heating: Heating) -> Fraction | None:
    """mm2 that the heaters cover; None unless all zones have heaters with their sizes."""
    total, zones = Fraction(0), set()
    for heater in heating.heaters:
        if heater.width is None or heater.length is None or heater.zone is None:
            return None
        total += _area(heater)
        zones.add(heater.zone.name)
    return total if zones and zones == {zone.name for zone in joint.zones} else None


def _cm2(mm2: Fraction) -> str:
    return f"{round(mm2 / 100)} cm2"


def _tell(case: Case, joint: Joint, at, message: str) -> None:  # type: ignore[no-untyped-def]
    heating = joint.entry.heating
    assert heating is not None
    case.add(
        RULE.found(
            message,
            at,
            address=f"{joint.address}/heating",
            others=[Label(heating.place("heated_band"), "the heated band")],
            basis=RULE.basis,
        )
    )
