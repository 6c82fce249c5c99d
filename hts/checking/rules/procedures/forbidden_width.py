"""Widths are stated as lengths where the owner wants them so."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, places
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.types import Multiple, WidthValue

_OPTION = "widths by multiples of wall"
_FORBIDS = (
    "  forbids          lower-temperature hold",
    f"  forbids          lower-temperature hold\n  forbids {_OPTION}",
)

RULE = Rule(
    "R106",
    "forbidden-width",
    "error",
    summary="A width in multiples of the wall under a procedure that forbids them.",
    why="A few wall thicknesses of thin pipe are narrower than the heating needs, and the paper "
    "hides the figure.",
    fix="State the width as a length, or write `by rule`.",
    source="the procedure that forbids them",
    basis="derived",
    bad=(
        Bad(
            (_FORBIDS, ("soak band      by rule", "soak band      3.2 t total")),
            base="procedure",
            at="3.2 t total",
        ),
    ),
    good=(
        Good((_FORBIDS,), base="procedure"),
        Good((("soak band      by rule", "soak band      3.2 t total"),), base="procedure"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    widths = [at for at, width in _widths(joint) if _is_multiple(width)]
    governing = limits_of(case, joint).of("option") if widths else None
    if governing is None:
        return
    for demand in governing.demands:
        if demand.limit.option == _OPTION and demand.limit.status == "forbidden":
            source = demand.limit.source
            for at in widths:
                case.add(
                    RULE.found(
                        f"{cited(source)} forbids {_OPTION}",
                        at,
                        address=joint.address,
                        others=places(source),
                    )
                )
            return


def _is_multiple(width: object) -> bool:
    return isinstance(width, WidthValue) and isinstance(width.amount, Multiple)


def _widths(joint: Joint) -> Iterator[tuple[Span, object]]:
    heating = joint.entry.heating
    if heating is not None:
        for field in ("soak_band", "heated_band", "gradient_band"):
            yield heating.place(field), getattr(heating, field)
        for insulation in (heating.insulation, heating.inside_insulation):
            if insulation is not None:
                yield insulation.place("width"), insulation.width
    for entry in (joint.preheat, *(bake.entry for bake in joint.bakes)):
        if entry is not None:
            yield entry.place("width"), getattr(entry, "width", None)
