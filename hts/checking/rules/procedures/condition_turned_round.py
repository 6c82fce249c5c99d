"""What is asked of thick and hardenable metal is not asked of thin and mild metal alone."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import NamedTuple

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.good_ends import PROTECTS
from hts.checking.rules.helpers.halves import Bounded, Way, ways
from hts.checking.rules.helpers.rows import editions_of, own_procedures, place_in_book
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.cycle import Bake
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.procedure import Procedure
from hts.limits import HEAT_TREATMENT, Book, Limit
from hts.syntax.formula import CONDITION, Formula

_LINE = "  holding spread   at most 25 K"
_REQUIRED = f"{_LINE}\n  post-weld heat treatment required when {{}}"

RULE = Rule(
    "R128",
    "condition-turned-round",
    "warning",
    summary="A procedure, or a rule book of one's own, that asks for heat treatment or a bake where the metal is thin "
    "or mild alone, or that lets it go where it is thick, hardenable or welded cold; a procedure for steel of much carbon alone.",
    why="`<` written for `>` treats the welds that do not need it, and lets those go that crack.",
    fix="Turn the sign round, or say what becomes of the others in a line of its own.",
    source="the conditions of all shipped books of codes: asked for above a thickness, an analysis or a "
    "strength, let go below it or above a preheat",
    basis="practice",
    bad=(
        Bad(
            ((_LINE, _REQUIRED.format("thicker_wall < 20 mm")),),
            base="owner",
            at="thicker_wall < 20 mm",
            says="required where thicker_wall < 20 mm … thicker_wall is more",
        ),
        Bad(
            (
                (
                    _LINE,
                    _REQUIRED.format("t > 20 mm or (t > 9 mm and specified_carbon < 0.25 %)"),
                ),
            ),
            base="owner",
            at="t > 20 mm or (t > 9 mm and specified_carbon < 0.25 %)",
            says="specified_carbon < 0.25 %",
        ),
        Bad(
            (
                (
                    _LINE,
                    f"{_LINE}\n  post-weld heat treatment exempt when t <= 25 mm and preheat <= 120 degC",
                ),
            ),
            base="owner",
            at="t <= 25 mm and preheat <= 120 degC",
            says="exempt where preheat <= 120 degC",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  requires bake when p_number = 5A and thicker_wall < 19 mm"),),
            base="owner",
            at="p_number = 5A and thicker_wall < 19 mm",
            says="bake … thicker_wall < 19 mm",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  post-weld heat treatment exempt when p_number in (4, 5A)"),),
            base="owner",
            at="p_number in (4, 5A)",
            says="exempt where p_number in (4, 5A): P-4 of any wall is let go",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  post-weld heat treatment required when sour_service = no"),),
            base="owner",
            at="sour_service = no",
            says="required where sour_service = no: the trade has it required where the service cracks welds",
        ),
        Bad(
            (
                (
                    _LINE,
                    f"{_LINE}\n  requires preheat soak at least 15 min when thicker_wall < 25 mm",
                ),
            ),
            base="owner",
            at="thicker_wall < 25 mm",
            says="`preheat soak at least 15 min` is required where thicker_wall < 25 mm",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  applies when carbon >= 0.30 %"),),
            base="owner",
            at="carbon >= 0.30 %",
            says="applies when carbon >= 0.30 %: usual is up to so much carbon",
        ),
    ),
    good=(
        Good(
            ((_LINE, f"{_LINE}\n  post-weld heat treatment required when sour_service = yes"),),
            base="owner",
        ),
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  post-weld heat treatment exempt when p_number = 4 and t <= 13 mm",
                ),
            ),
            base="owner",
        ),
        Good(((_LINE, f"{_LINE}\n  applies when carbon <= 0.30 %"),), base="owner"),
        # Thin metal of much carbon, and all that is thicker.
        Good(
            (
                (
                    _LINE,
                    _REQUIRED.format("t > 20 mm")
                    + "\n  post-weld heat treatment required when t <= 20 mm and specified_carbon > 0.25 %",
                ),
            ),
            base="owner",
        ),
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  post-weld heat treatment exempt when t > 20 mm and t <= 25 mm and preheat >= 120 degC",
                ),
            ),
            base="owner",
        ),
    ),
)

#: What more of asks for more, and what more of lets a weld go.
_MORE = (
    "t", "wall", "thicker_wall", "thinner_wall", "weld_thickness", "groove_depth", "throat",
    "run_wall", "branch_wall", "heavy_wall", "outside_diameter", "nominal_size", "carbon",
    "specified_carbon", "carbon_equivalent", "pcm", "manganese", "chromium", "tensile_strength",
    "diffusible_hydrogen",
)  # fmt: skip
_LESS = ("preheat",)
#: The words of a status, and whether it asks for treatment.
_ASKS = {"required": True, "exempt": False, "none": False}


class Line(NamedTuple):
    """A line that asks for something where its condition holds, or lets it go."""

    what: str
    status: str
    ways: list[Way]
    at: Span


#: Walls, of which one is bound wherever a code lets a weld of hardenable steel go.
_WALLS = {*_MORE[:10], "heat_input", "preheat", "layers", "single_pass_qualified"}
#: Facts of the analysis of which a procedure is for so much and no more.
_ANALYSIS = ("carbon", "specified_carbon", "carbon_equivalent", "pcm", "diffusible_hydrogen")
_NO_SERVICE = re.compile(
    r"\b(?:sour|amine_or_caustic|carbonate|lethal)_service *(?:= *no|!= *yes)\b"
)
_HARDENS = ("4", "5A", "5B", "5C", "15E")


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for line, bound in turned_round(list(_of_procedure(procedure))):
            _tell(case, procedure.name, line, bound)
        for text, message, at in (
            *_all_let_go(procedure),
            *_for_much_alone(procedure),
            *_harmless(procedure),
        ):
            case.add(RULE.found(f"{text}: {message}", at, address=procedure.name, basis=RULE.basis))
    for book in case.spec.books:
        # Editions of a book share rows.
        told: set[int] = set()
        for edition in editions_of(book):
            for line, bound in turned_round(list(of_book(edition, partial(place_in_book, book)))):
                if line.at.start not in told:
                    told.add(line.at.start)
                    _tell(case, book.file.id, line, bound)


def _harmless(procedure: Procedure) -> Iterator[tuple[str, str, Span]]:
    """Lines that ask for treatment where a service does no harm."""
    for line in procedure.treatments:
        found = _NO_SERVICE.search(line.when.text) if line.when is not None else None
        if found is not None and line.status == "required" and not line.note:
            text = f"{HEAT_TREATMENT} is required where {found[0]}"
            yield (
                text,
                "the trade has it required where the service cracks welds",
                line.place("when"),
            )


def _all_let_go(procedure: Procedure) -> Iterator[tuple[str, str, Span]]:
    """Lines that let steel go that hardens, however thick it is."""
    for line in procedure.treatments:
        if line.status != "exempt" or line.when is None or line.note:
            continue
        metals = re.findall(r"p_number *(?:=|in) *\(?([^()=!<>]*)", line.when.text)
        named = [metal for metal in _HARDENS if metal in re.findall(r"\w+", " ".join(metals))]
        if (
            named
            and not _WALLS & set(Formula.parse(line.when.text, CONDITION).names)
            and "not" not in line.when.text.split()
        ):
            text = f"{HEAT_TREATMENT} is exempt where {line.when.text}"
            yield text, f"P-{named[0]} of any wall is let go", line.place("when")


def _for_much_alone(procedure: Procedure) -> Iterator[tuple[str, str, Span]]:
    """A scope that begins with an analysis of so much, where scopes end with it."""
    for scope in procedure.conditions if not procedure.amends else ():
        if scope.condition is None or re.search(
            r"carbon|equivalent|hydrogen", procedure.title or "", re.I
        ):
            continue
        found = _read(scope.condition)
        for fact in _ANALYSIS:
            if found and all(way.only(fact) == "above" for way in found):
                text = f"{procedure.name} applies when {scope.condition.text}"
                yield (
                    text,
                    f"usual is up to so much {fact.replace('_', ' ')}",
                    scope.place("condition"),
                )


def of_book(book: Book, place: Callable[[Limit], Span]) -> Iterator[Line]:
    """The rows of a book that ask for heat treatment, or let it go."""
    for row in book.limits:
        if row.status in _ASKS and row.when is not None:
            words = {f"{fact} in {', '.join(each)}" for fact, each in row.where.items()}
            found = [way._replace(others=way.others | words) for way in ways(row.when)]
            yield Line(row.quantity, row.status, found, place(row))


def turned_round(lines: Sequence[Line]) -> Iterator[tuple[Line, Bounded]]:
    """The lines that bound a fact on the wrong side alone, each with what it says of that."""
    for line in lines:
        found = next(_turned(line, lines), None)
        if found is not None:
            yield line, found


def _of_procedure(procedure: Procedure) -> Iterator[Line]:
    for line in procedure.treatments:
        if line.status in _ASKS and line.when is not None:
            yield Line(HEAT_TREATMENT, line.status, _read(line.when), line.place("when"))
    for demand in procedure.requires:
        what = demand.what
        if what is None or demand.when is None:
            continue
        bakes = what.targets[0].root is Bake
        if bakes or (what.paths & {*PROTECTS} and not demand.note):
            named = "a bake" if bakes else f"`{what.text}`"
            yield Line(named, "required", _read(demand.when), demand.place("when"))


def _read(condition: FormulaText) -> list[Way]:
    return ways(Formula.parse(condition.text, CONDITION))


def _tell(case: Case, name: str, line: Line, turned: Bounded) -> None:
    more = "more" if (turned.fact in _MORE) == _ASKS[line.status] else "less"
    case.add(
        RULE.found(
            f"{line.what} is {line.status} where {turned.text}: the trade has it {line.status} "
            f"where {turned.fact} is {more}",
            line.at,
            address=name,
            basis=RULE.basis,
        )
    )


def _turned(line: Line, lines: Sequence[Line]) -> Iterator[Bounded]:
    """What a line bounds on the wrong side alone, where no other of its kind has the right side
    under conditions that hold wherever those of this one do."""
    asks = _ASKS[line.status]
    for way in line.ways:
        for bound in way.bounds:
            if bound.fact not in _MORE and bound.fact not in _LESS:
                continue
            right = "above" if (bound.fact in _MORE) == asks else "below"
            if way.only(bound.fact) in ("", right):
                continue
            if not any(
                other.only(bound.fact) == right and _is_weaker(other, way, bound.fact)
                for each in lines
                if (each.what, each.status) == (line.what, line.status)
                for other in each.ways
            ):
                yield bound


def _is_weaker(other: Way, way: Way, fact: str) -> bool:
    """Whether one asks for nothing else than another does."""
    asked = {bound.text for bound in way.bounds} | way.others
    return other.others <= asked and all(
        bound.fact == fact or bound.text in asked for bound in other.bounds
    )
