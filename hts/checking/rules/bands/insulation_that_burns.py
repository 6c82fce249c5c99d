"""What lies on hot metal bears the hold: insulation, liner, and the cover of a junction."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.helpers.steps import hottest, treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_BLANKET = '"ceramic fibre blanket" thickness 50 mm layers 2'
_COVER = 'junction cover      "refractory putty"'


def _insulation(material: str) -> tuple[tuple[str, str], ...]:
    return ((_BLANKET, _BLANKET.replace("ceramic fibre blanket", material)),)


def _cover(material: str) -> tuple[tuple[str, str], ...]:
    return ((_COVER, f'junction cover      "{material}"'),)


RULE = Rule(
    "B129",
    "insulation-that-burns",
    "warning",
    summary="Insulation, a liner or a cover of a junction of a material that burns, melts or crumbles below the hold.",
    why="It is gone before the hold begins: the metal lies bare, and the junction reads the heater.",
    fix="Name the material that is used; ceramic fibre, or putty that bears the hold.",
    source="common practice, no source: tape, rubber and plastics to 250 degC, glass wool to 510 degC, mineral wool to 700 degC",
    basis="practice",
    bad=(
        Bad(_cover("masking tape"), at='"masking tape"', says="masking tape bears about 150 degC … up to 730 degC"),
        Bad(_insulation("glass wool blanket"), at='"glass wool blanket"', says="about 510 degC … up to 730 degC"),
        Bad(_insulation("mineral wool"), at='"mineral wool"', says="about 700 degC … up to 730 degC"),
        Bad(_insulation("polyurethane foam"), at='"polyurethane foam"', says="about 250 degC … up to 730 degC"),
    ),
    good=(
        Good(_cover("ceramic fibre tape")),
        Good(_cover("ceramic paper and putty")),
        Good(_insulation("alkaline earth silicate wool")),
        Good(_insulation("ceramic fibre over rock wool")),
        Good(_insulation("calcium silicate")),
    ),
    agrees=(
        Agreement("joint.heating.insulation.material", "cycle.hold.range", "it bears the hold"),
        Agreement("joint.thermocouples.junction cover", "cycle.hold.range", "it bears the hold"),
    ),
)  # fmt: skip

#: Words for a material, and what it bears, degC.
_BEARS = (
    (
        r"(?:masking|duct|adhesive|electrical|insulating|packing|pvc) tape|cardboard|wood(?:en)?|cotton|hessian|(?:news)?paper|rags?|straw|sawdust|cork|felt",
        150,
    ),
    (r"rubber|plastic|poly\w+|styrofoam|pvc|nylon|ptfe|epoxy|paint|bitumen", 250),
    (r"glass ?(?:wool|fibre|fiber|cloth|braid)|fib(?:re|er)glass", 510),
    (r"(?:mineral|rock|stone|slag) ?wool", 700),
)
_TABLE = tuple((re.compile(rf"\b(?:{words})\b", re.IGNORECASE), bears) for words, bears in _BEARS)
#: What bears any hold, and lies between where several materials are named.
_REFRACTORY = re.compile(r"ceramic|silica|alumina|refractor|mica|basalt|magnesia", re.IGNORECASE)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    found = [each for each in map(_judged, _materials(joint)) if each is not None]
    if not found:
        return
    tops = [top for each in treated(joint) if (top := hottest(case, each)) is not None]
    for material, bears, at in found:
        hot = next((top for top in tops if top[1] > bears), None)
        if hot is not None:
            case.add(
                RULE.found(
                    f"{material} bears about {bears}, and {joint.name} is held at up to {hot[1]}",
                    at,
                    address=f"{joint.address}/heating",
                    others=[Label(hot[0].place("range"), "the hold")],
                    basis=RULE.basis,
                )
            )


def _judged(named: tuple[str, Span]) -> tuple[str, Quantity, Span] | None:
    """A material with what it bears, and where it is named; None where it bears any hold."""
    material, at = named
    if _REFRACTORY.search(material) or denied(material):
        return None
    bears = next((limit for words, limit in _TABLE if words.search(material)), None)
    return (material, Quantity.of(bears, "degC", TEMPERATURE), at) if bears is not None else None


def _materials(joint: Joint) -> Iterator[tuple[str, Span]]:
    heating, block = joint.entry.heating, joint.entry.thermocouples
    for each in (heating.insulation, heating.inside_insulation, heating.liner) if heating else ():
        if each is not None and isinstance(each.material, str):
            yield each.material, each.place("material")
    if block is not None and isinstance(block.junction_cover, str):
        yield block.junction_cover, block.place("junction_cover")
