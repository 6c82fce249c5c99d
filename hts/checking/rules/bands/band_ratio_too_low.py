"""So much is heated outside that the bore comes along."""

from __future__ import annotations

from hts.base.quantities.number import NumberError, read_number
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

_RATIO = "    band ratio     5\n"

RULE = Rule(
    "B127",
    "band-ratio-too-low",
    "warning",
    summary="A ratio of heated surface to wall section and bore below 5, or below 2 with insulation inside.",
    why="Too little heat for what the bore gives off: in a test of AWS D10.10 with a ratio of 1.19 the "
    "bottom of the bore stayed 67 K colder than the top outside, from 5 on less than 25 K.",
    fix="Write a band ratio of 5 or more, or insulate the bore.",
    source="AWS D10.10:2021, annex",
    basis="published",
    edges=(
        Edge(
            ((_RATIO, "    band ratio     {}\n"),),
            keeps="5",
            breaks="4.9",
            says="ratio of W12 is 4.9 … 5",
        ),
    ),
    good=(
        Good(
            (
                (
                    _RATIO,
                    '    band ratio     3\n    inside insulation  "ceramic fibre plug" thickness 100 mm\n',
                ),
            )
        ),
    ),
)
#: AWS D10.10:2021, annex; an insulated bore takes less heat: common practice, no source.
_LEAST, _INSULATED = 5, 2


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.band_ratio is None:
        return
    try:
        ratio = read_number(heating.band_ratio)
    except NumberError:
        return
    insulated = heating.inside_insulation is not None
    if ratio < (_INSULATED if insulated else _LEAST):
        case.add(
            RULE.found(
                f"the band ratio of {joint.name} is {heating.band_ratio}; AWS D10.10 recommends {_LEAST} or more",
                heating.place("band_ratio"),
                address=f"{joint.address}/heating",
                basis="practice" if insulated else RULE.basis,
            )
        )
