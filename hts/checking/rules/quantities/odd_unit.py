"""One thing is written in one system of units."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.figures import figures
from hts.checking.rules.rule import Bad, Good, Rule

RULE = Rule(
    "Q205",
    "odd-unit",
    "warning",
    summary="A procedure with one temperature or rate in degF among many in degC, or the other way "
    "round.",
    why="The digits are probably right and the unit is not: 100 degF for 100 degC is hardly warm, "
    "and 315 degF above which a rate counts is half as hot.",
    fix="Write it in the unit of the others; paper can show both.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "  cooling rate     at most 200 degC/h above 315 degC",
                    "  cooling rate     at most 200 degC/h above 315 degF",
                ),
            ),
            base="owner",
            at="315 degF",
            says="315 degF stands alone among 4 figures",
        ),
    ),
    good=(
        # 350 degC is 662 degF; 260 degC is 500 degF, as a paper in degF has it.
        Good(((" at most 350 degC", " at most 500 degF"),), base="owner"),
        Good(
            (
                (
                    "  cooling rate     at most 200 degC/h above 315 degC",
                    "  cooling rate     at most 360 degF/h above 599 degF",
                ),
            ),
            base="owner",
        ),
        Good(
            (
                (
                    "  margin below lower critical  at least 30 K",
                    "  margin below lower critical  at least 54 degF",
                ),
            ),
            base="owner",
        ),
    ),
)

#: A degree Fahrenheit in K; figures that end in 0 or 5 are round.
_DEGREE, _ROUND = Fraction(5, 9), 5
#: Figures are converted to the next round one: 315 degC stands for 600 degF.
_ROUGHLY = 2
#: So many in the one unit make the one in the other look like a slip.
_MANY = 4
_WRITTEN = re.compile("(?:deg|°)([CF])")
_SCALE = re.compile(r"deg([CF])(?:/h)?$")


@RULE.for_spec
def check(case: Case) -> None:
    text = case.spec.source.text
    if not case.spec.file.procedures or len(set(_WRITTEN.findall(text))) < 2:
        return
    starts = sorted(procedure.place().start for procedure in case.spec.file.procedures)
    for procedure in case.spec.file.procedures:
        start = procedure.place().start
        end = next((other for other in starts if other > start), len(text))
        written: dict[str, list[Span]] = {"C": [], "F": []}
        for scale, place in _temperatures(case.spec.source.span(start, end)):
            written[scale].append(place)
        few, many = sorted(written.values(), key=len)
        if len(few) != 1 or len(many) < _MANY or _is_meant(few[0].text):
            continue
        case.add(
            RULE.found(
                f"{few[0].text} stands alone among {len(many)} figures in the other unit",
                few[0],
                address=procedure.name,
                others=[Label(many[0], "for example")],
                basis=RULE.basis,
            )
        )


def _is_meant(figure: str) -> bool:
    """Whether a figure is odd as it stands and round in the other unit, as 18 degF is 10 K: that
    was worked out, and no unit was forgotten."""
    number = figure.split()[0]
    if _is_converted(figure, number):
        return True
    if figure.endswith("/h") or not number.replace(".", "", 1).isdigit():
        return False
    stands = Fraction(number)
    difference = stands * _DEGREE if "F" in figure else stands / _DEGREE
    scale = (stands - 32) * _DEGREE if "F" in figure else stands / _DEGREE + 32
    return bool(stands % _ROUND) and not (difference % _ROUND and scale % _ROUND)


def _is_converted(figure: str, number: str) -> bool:
    """Whether a figure in degC, round or not, is one of whole hundreds of degF, as 260 degC is 500 degF; or
    one in degF is exactly a round one in degC."""
    if figure.endswith("/h") or not number.replace(".", "", 1).isdigit():
        return False
    stands = Fraction(number)
    if "F" in figure:
        return not (stands - 32) * _DEGREE % 10
    other = stands / _DEGREE + 32
    return abs(other - 100 * round(other / 100)) <= _ROUGHLY


def _temperatures(place: Span) -> Iterator[tuple[str, Span]]:
    for figure, at in figures(place.source, place.start, place.end):
        if scale := _SCALE.search(figure):
            yield scale[1], at
