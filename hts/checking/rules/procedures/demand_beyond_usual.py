"""What a procedure demands of filler and hardness is what its service bears."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hts.base.quantities import HYDROGEN, MASS_FRACTION, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.helpers.shared_with_procedures import HARDEST, SERVICE
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.vocabulary.demand_lines import DemandLine
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.procedure import Procedure
from hts.syntax.formula import Formula, FormulaError, UnknownFact

_LINE = "  holding spread   at most 25 K"
_SOUR = "requires joint service wet hydrogen sulphide"


def _with(*lines: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, "\n  ".join((_LINE, *lines))),)


RULE = Rule(
    "R134",
    "demand-beyond-usual",
    "warning",
    summary="A procedure that lets steel have more than 0.05 % of sulphur or phosphorus, or fillers more than 16 ml/100g of hydrogen, or 10 ml/100g for wet hydrogen sulphide; or "
    "that lets welds for wet hydrogen sulphide be harder than 250 HV10.",
    why="A slipped digit lets through what the limit is there to keep out: every job that keeps it cracks.",
    fix="Check the digits, and the service the procedure is for.",
    source="classes of hydrogen to H16 (AWS A5.1), low hydrogen to 10 ml/100g (EN 1011-2): from memory; 250 HV and 22 HRC for "
    "sour service (ISO 15156-2), about 238 HBW: from memory",
    basis="memory",
    edges=(
        Edge(
            _with("requires filler diffusible hydrogen at most {}"),
            keeps="16 ml/100g",
            breaks="17 ml/100g",
            base="owner",
            says="at most 17 ml/100g … usual is at most 16 ml/100g",
        ),
        Edge(
            _with("requires material composition S at most {}"),
            keeps="0.050 %",
            breaks="0.051 %",
            base="owner",
            says="at most 0.051 % … usual is at most 0.05 %",
        ),
        Edge(
            _with(_SOUR, "requires filler diffusible hydrogen at most {}"),
            keeps="10 ml/100g",
            breaks="11 ml/100g",
            base="owner",
            says="at most 11 ml/100g … usual for wet hydrogen sulphide is at most 10 ml/100g",
        ),
        Edge(
            _with(_SOUR, "requires after heat hardness weld at most {}"),
            keeps="250 HV10",
            breaks="251 HV10",
            base="owner",
            says="at most 251 HV10 … usual for wet hydrogen sulphide is at most 250 HV10",
        ),
        Edge(
            _with(
                "requires after heat hardness weld at most {} when service = wet-hydrogen-sulphide"
            ),
            keeps="22 HRC",
            breaks="23 HRC",
            base="owner",
            says="at most 23 HRC … usual for wet hydrogen sulphide is at most 22 HRC",
        ),
    ),
    good=(
        Good(_with("requires after heat hardness weld at most 280 HV10"), base="owner"),
        # Of either service: which of them counts is not known.
        Good(
            _with(
                "requires joint service lethal or steam",
                "requires after heat hardness weld at most 260 HV10",
            ),
            base="owner",
        ),
    ),
)

#: Pipe and plate for pressure have less of either (ASTM A106: 0.035 %).
_DIRTY = Quantity.of("0.05", "%", MASS_FRACTION)
_ANY, _LOW = (Quantity.of(figure, "ml/100g", HYDROGEN) for figure in (16, 10))


class _Asked(NamedTuple):
    """What a line asks for at the most, whether it is for sour service, and where it stands."""

    path: str
    element: str
    most: Quantity
    sour: bool
    text: str
    at: Span


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for asked in _asked(procedure):
            usual = _usual(asked)
            if usual is None or asked.most <= usual:
                continue
            whose = f" for {SERVICE}" if asked.sour and usual is not _ANY else ""
            case.add(
                RULE.found(
                    f"{procedure.name} asks for `{asked.text}`; usual{whose} is at most {usual}",
                    asked.at,
                    address=procedure.name,
                    basis=RULE.basis,
                )
            )


def _usual(asked: _Asked) -> Quantity | None:
    if asked.path == "filler.diffusible hydrogen":
        return _LOW if asked.sour else _ANY
    if asked.path == "material.composition" and asked.element in ("S", "P"):
        return _DIRTY
    if asked.path == "after heat.hardness.at most" and asked.sour:
        return HARDEST.get(asked.most.unit.symbol)
    return None


def _asked(procedure: Procedure) -> Iterator[_Asked]:
    lines = [line for line in procedure.requires if line.what is not None and line.sound]
    sour = any(_is_for_sour(line) for line in lines)
    for line in lines:
        what = line.what
        assert what is not None
        when = line.when.text if line.when is not None else ""
        for test in what.tests:
            most = _fixed(test.most)
            if isinstance(most, Quantity):
                for path in what.paths:
                    yield _Asked(
                        path,
                        test.element,
                        most,
                        sour or _SOUR_WHEN in when,
                        what.text,
                        line.place("what"),
                    )


_SOUR_WHEN = "wet-hydrogen-sulphide"


def _is_for_sour(line: DemandLine) -> bool:
    """Whether a line asks every weld to be for that service, or for it or for something worse."""
    what = line.what
    if what is None or line.when is not None or "joint.service" not in what.paths:
        return False
    return any(
        SERVICE in test.among and {*test.among} <= {SERVICE, "lethal"} for test in what.tests
    )


def _fixed(bound: object) -> object:
    """A bound that hangs on no fact; None for one that does."""
    if not isinstance(bound, FormulaText):
        return bound
    try:
        return Formula.parse(bound.text).evaluate({})
    except (UnknownFact, FormulaError):
        return None
