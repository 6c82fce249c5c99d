"""A bake or a preheat that no book limits is heated no faster than the thickness bears."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from hts.base.quantities import RATE, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.segments import Heat

#: K/h up to 1 in, and that in mm: beyond, the rate falls as the thickness grows.
_MOST, _THIN = Fraction(335), Fraction(254, 10)
#: What is never too fast.
_SLOW = Fraction(55)

_BAKED = "  heat  to 325 degC at most 150 degC/h"
_METHOD = "  method            resistance\n"

RULE = Rule(
    "P141",
    "heated-unusually-fast",
    "warning",
    summary="A bake or a preheat heated faster than codes let a heat treatment be heated in that "
    "thickness.",
    why="No book limits this rate, and the surface of a thick weld full of hydrogen runs ahead of "
    "its inside: it cracks while it is heated to keep it from cracking.",
    fix="Lower the rate, or check its unit.",
    source="the fastest rate codes of piping give a heat treatment, 600 degF/h to 1 in and less beyond "
    "(ASME B31.3:2018, 331.1.4; B31.1:2018, 132.5), taken for a bake and a preheat; practice",
    basis="practice",
    edges=(
        Edge(
            ((_BAKED, "  heat  to 325 degC at most {}"),),
            keeps="335 degC/h",
            breaks="336 degC/h",
            base="bake",
            says="bake of W12 is heated at up to 336 degC/h (605 degF/h); 25.4 mm … 335 degC/h (603 degF/h)",
        ),
        Edge(
            ((_METHOD, f"{_METHOD}  heating rate at most {{}}\n"),),
            keeps="335 degC/h",
            breaks="336 degC/h",
            says="preheat of W12 is heated at up to 336 degC/h (605 degF/h); 25.4 mm … 335 degC/h (603 degF/h)",
        ),
    ),
    agrees=(Agreement("bake.heat.at most", "joint.wall", "the rate the thickness bears"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    rates = list(_rates(joint))
    thickness = limits_of(case, joint).thickness if rates else None
    if thickness is None:
        return
    bears = max(_MOST * min(Fraction(1), _THIN / thickness.value), _SLOW)
    most = Quantity.of(bears, "K/h", RATE)
    for what, address, rate, at in rates:
        if rate.value > most.value:
            shown = most.in_unit(rate.unit.symbol)
            case.add(
                RULE.found(
                    f"the {what} of {joint.name} is heated at up to {rate.both()}; {thickness} bears "
                    f"about {shown.both('down')} in a heat treatment",
                    at,
                    address=address,
                    basis=RULE.basis,
                )
            )


def _rates(joint: Joint) -> Iterator[tuple[str, str, Quantity, Span]]:
    """The rates of heating of what no book limits the rate of."""
    preheat = joint.preheat
    if preheat is not None and preheat.rate is not None:
        yield "preheat", f"{joint.address}/preheat", preheat.rate, preheat.place("rate")
    for bake in joint.bakes:
        for segment in bake.entry.segments:
            if isinstance(segment, Heat) and isinstance(segment.rate, Quantity):
                yield "bake", bake.address, segment.rate, segment.place("rate")
