"""A condition of a procedure tells welds apart: some of those it is for meet it, some do not."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any, NamedTuple

from hts.base.quantities import (
    COUNT,
    LENGTH,
    MASS_FRACTION,
    STRESS,
    TEMPERATURE,
    Dimension,
    Quantity,
)
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain
from hts.checking.rules.helpers.halves import ways
from hts.checking.rules.helpers.rows import editions_of, own_procedures, place_in_book
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.procedure import Procedure
from hts.syntax.formula import CONDITION, Formula

_WALLS = ("wall", "thicker_wall", "thinner_wall", "run_wall", "branch_wall")
_GOVERNING = ("t", "weld_thickness")
#: Beyond these, mm, no vessel is welded; a governing thickness may be that of a wall and its fillet.
_THICKEST, _TIMES = Fraction(350), Fraction(5, 2)
_THICKEST_AND_COVER = Fraction(500)
#: Outside diameters of pipe, mm: NPS 1, below which hardly anything is heat treated, and NPS 80,
#: the widest of the table; a vessel may be wider.
_SMALL_PIPE, _WIDE_PIPE = Fraction(334, 10), Fraction(2032)
#: Girth to diameter.
_ROUND = Fraction(22, 7)
#: The narrowest soak band of a weld that is treated, mm.
_NARROW = Fraction(40)
_NONE = "no weld"
_PIPING = ("asme-b31", "en-13480")
_LINE = "  holding spread   at most 25 K"
_ZONES = f"{_LINE}\n  zones at least 2 when {{}}"

RULE = Rule(
    "R126",
    "condition-out-of-reach",
    "warning",
    summary="A condition of a procedure, or of a rule book of one's own, that no weld it is for meets, or that every one does: a wall "
    "beyond its scope, a diameter wider than any pipe, a band wider than nought, a preheat that is that of the day or hotter "
    "than any, a P-number that the scope leaves out; or one of two figures that says nothing beside the other.",
    why="A row meant for some welds counts for none, or replaces the rule for all of them.",
    fix="Check the figure, its unit and the fact it is compared with.",
    source="the scope of the procedure; sizes of pipe (ASME B36.10M) and of what is usual, common "
    "practice",
    basis="practice",
    bad=(
        Bad(
            ((_LINE, _ZONES.format("wall >= 219 mm")),),
            base="owner",
            at="wall >= 219 mm",
            says="no weld P-07 is for has wall >= 219 mm",
        ),
        Bad(
            (
                (_LINE, _ZONES.format("thicker_wall > 19 mm")),
                ("wall      at most 75 mm", "wall      at least 75 mm"),
            ),
            base="owner",
            at="thicker_wall > 19 mm",
            says="every weld P-07 is for has thicker_wall > 19 mm",
        ),
        Bad(
            ((_LINE, _ZONES.format("p_number in (4, 15F)")),),
            base="owner",
            at="p_number in (4, 15F)",
            says="no weld P-07 is for has p_number = 15F",
        ),
        Bad(
            ((_LINE, _ZONES.format("t > 20 mm and (t > 9 mm and specified_carbon > 0.25 %)")),),
            base="owner",
            at="t > 20 mm and (t > 9 mm and specified_carbon > 0.25 %)",
            says="t > 20 mm and t > 9 mm stand together: one of them says nothing",
        ),
    ),
    edges=(
        Edge(
            ((_LINE, _ZONES.format("wall > 13 mm and band_ratio < {}")),),
            keeps="15",
            breaks="16",
            base="owner",
            says="every weld P-07 is for has band_ratio < 16",
        ),
        Edge(
            ((_LINE, _ZONES.format("girth < {}")),),
            keeps="105 mm",
            breaks="104 mm",
            base="owner",
            says="no weld P-07 is for has girth < 104 mm",
        ),
        Edge(
            ((_LINE, _ZONES.format("t > 20 mm or (t > {} and specified_carbon > 0.25 %)")),),
            keeps="19 mm",
            breaks="20 mm",
            base="owner",
            at="t > 20 mm or (t > 20 mm and specified_carbon > 0.25 %)",
            says="the part with t > 20 mm never counts: t > 20 mm stands beside it",
        ),
        Edge(
            ((_LINE, _ZONES.format("t > {}")),),
            keeps="187 mm",
            breaks="188 mm",
            base="owner",
            says="no weld P-07 is for has t > 188 mm",
        ),
        Edge(
            ((_LINE, _ZONES.format("thicker_wall <= {}")),),
            keeps="75 mm",
            breaks="76 mm",
            base="owner",
            says="every weld P-07 is for has thicker_wall <= 76 mm",
        ),
        Edge(
            ((_LINE, _ZONES.format("preheat >= {}")),),
            keeps="40 degC",
            breaks="39 degC",
            base="owner",
            says="every weld P-07 is for has preheat >= 39 degC",
        ),
        Edge(
            ((_LINE, _ZONES.format("outside_diameter > {}")),),
            keeps="34 mm",
            breaks="33 mm",
            base="owner",
            says="every weld P-07 is for has outside_diameter > 33 mm",
        ),
        Edge(
            ((_LINE, _ZONES.format("t <= {}")),),
            keeps="187 mm",
            breaks="188 mm",
            base="owner",
            says="every weld P-07 is for has t <= 188 mm",
        ),
    ),
    good=(
        Good(((_LINE, _ZONES.format("outside_diameter >= 219 mm")),), base="owner"),
        Good(((_LINE, _ZONES.format("thicker_wall > 25 mm")),), base="owner"),
        # A row as the code has it, wider than the scope of the procedure.
        Good(((_LINE, _ZONES.format("p_number in (1, 3, 4, 5A)")),), base="owner"),
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  interpass at most 320 degC when p_number in (1, 3)\n"
                    "  interpass at most 320 degC when p_number in (4, 5A)",
                ),
            ),
            base="owner",
        ),
        # No piping code governs it: a shell may be as wide.
        Good(((_LINE, _ZONES.format("outside_diameter > 3 m")),), base="owner"),
    ),
)


class _Reach(NamedTuple):
    """What a fact may be of the welds a procedure is for, mm; None where nothing is said."""

    least: Fraction | None
    most: Fraction | None
    #: Whether a condition that no weld meets is told as a row without effect.
    elsewhere: bool = False


def _between(least: str, most: str, unit: str, dimension: Dimension) -> _Reach:
    low, high = (Quantity.of(end, unit, dimension).value for end in (least, most))
    return _Reach(low, high)


#: What facts are of any steel that is welded, and of any preheat.
_STEEL = {
    "preheat": _between("40", "450", "degC", TEMPERATURE),
    "qualified_preheat": _between("-20", "450", "degC", TEMPERATURE),
    "carbon": _between("0.01", "0.6", "%", MASS_FRACTION),
    "specified_carbon": _between("0.01", "0.6", "%", MASS_FRACTION),
    "manganese": _between("0.05", "20", "%", MASS_FRACTION),
    "tensile_strength": _between("250", "1400", "MPa", STRESS),
    "girth": _Reach(_SMALL_PIPE * _ROUND, None),
    "cap_width": _between("3", "250", "mm", LENGTH),
    "band_ratio": _Reach(Fraction(1), Fraction(15)),
    "zones": _Reach(Fraction(1), Fraction(48)),
    "earlier_treatments": _Reach(Fraction(0), Fraction(12)),
}
#: Of a rule book, that says nothing of the walls it is for.
_ANY = {
    **dict.fromkeys(_WALLS, _Reach(None, _THICKEST)),
    **dict.fromkeys(_GOVERNING, _Reach(None, _THICKEST_AND_COVER)),
    "soak_band": _Reach(_NARROW, None),
    **_STEEL,
}


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        reach = _reach(procedure)
        for condition, at, beside in _conditions(procedure):
            formula = Formula.parse(condition.text, CONDITION)
            messages = (
                *_out_of_reach(procedure.name, formula, reach),
                *_covered(formula),
                *_implied(formula),
                *_not_for(procedure, formula, beside),
            )
            for message in messages:
                case.add(RULE.found(message, at, address=procedure.name, basis=RULE.basis))
    for book in case.spec.books:
        # Editions of a book share rows.
        told: set[tuple[int, str]] = set()
        for row in (row for found in editions_of(book) for row in found.limits):
            at = place_in_book(book, row)
            messages = (
                (
                    *_out_of_reach(book.file.id, row.when, _ANY),
                    *_covered(row.when),
                    *_implied(row.when),
                )
                if row.when
                else ()
            )
            for message in messages:
                if (at.start, message) not in told:
                    told.add((at.start, message))
                    case.add(RULE.found(message, at, address=book.file.id, basis=RULE.basis))


def _out_of_reach(name: str, condition: Formula, reach: dict[str, _Reach]) -> Iterator[str]:
    for fact, relation, value in _comparisons(condition):
        how = _verdict(relation, value, reach[fact]) if fact in reach else ""
        if how and not (how == _NONE and reach[fact].elsewhere):
            yield f"{how} {name} is for has {fact} {relation} {value}"


def _implied(condition: Formula) -> Iterator[str]:
    """Parts of an `and` that say nothing, for another part lets through less."""
    for way in ways(condition):
        for fact in dict.fromkeys(bound.fact for bound in way.bounds):
            texts = dict.fromkeys(bound.text for bound in way.bounds if bound.fact == fact)
            if way.only(fact) and len(texts) > 1:
                yield f"{' and '.join(texts)} stand together: one of them says nothing"
                return


def _not_for(
    procedure: Procedure, condition: Formula, beside: Sequence[FormulaText]
) -> Iterator[str]:
    """Words of a list, of which others are met, that the scope of the procedure leaves out, where one
    of the scope stands neither in the list nor in rows beside it."""
    from hts.syntax.formula.conditions import Member
    from hts.syntax.formula.nodes import Name, Word

    waiting = [condition.root]
    while waiting:
        node = waiting.pop()
        waiting.extend(node.parts)
        fact = node.parts[0] if isinstance(node, Member) else None
        if not isinstance(node, Member) or not isinstance(fact, Name):
            continue
        scope = domain(procedure).words.get(fact.word, ())
        words = [each.word if isinstance(each, Word) else each.written for each in node.choices]
        beyond = [word for word in words if word not in scope]
        # Where none of the scope is missing the list was only written wide.
        missing = [word for word in scope if word not in words]
        if missing and all(
            any(re.search(rf"\b{re.escape(word)}\b", row.text) for row in beside)
            for word in missing
        ):
            missing = []
        if beyond and missing and len(beyond) < len(words):
            yield f"no weld {procedure.name} is for has {fact.word} = {beyond[0]}"


def _covered(condition: Formula) -> Iterator[str]:
    """Parts of an `or` that never count, for another part has all welds that meet them."""
    from hts.syntax.formula.conditions import Compare, Joined

    waiting = [condition.root]
    while waiting:
        node = waiting.pop()
        waiting.extend(node.parts)
        if not isinstance(node, Joined) or not node.decisive:
            continue
        plain = [part for part in node.parts if isinstance(part, Compare)]
        joined = [part for part in node.parts if isinstance(part, Joined) and not part.decisive]
        for wide in (found for part in plain if (found := _length(part)) is not None):
            for part in (inner for each in joined for inner in each.parts):
                narrow = _length(part) if isinstance(part, Compare) else None
                if narrow is not None and _lies_within(narrow, wide):
                    fact, relation, value = narrow
                    yield (
                        f"the part with {fact} {relation} {value} never counts: {wide[0]} {wide[1]} {wide[2]} stands "
                        "beside it"
                    )


def _length(node: Any) -> tuple[str, str, Quantity] | None:
    """The fact, the relation and the length of a comparison; None for any other."""
    from hts.syntax.formula.nodes import Literal, Name

    left, right = node.parts
    if isinstance(left, Name) and isinstance(right, Literal) and right.quantity.dimension is LENGTH:
        return left.word, node.relation, right.quantity
    return None


def _lies_within(narrow: tuple[str, str, Quantity], wide: tuple[str, str, Quantity]) -> bool:
    """Whether all that meets one comparison meets the other."""
    if narrow[0] != wide[0] or narrow[1][:1] != wide[1][:1] or narrow[1][:1] not in "<>":
        return False
    return narrow[2] >= wide[2] if wide[1][:1] == ">" else narrow[2] <= wide[2]


def _reach(procedure: Procedure) -> dict[str, _Reach]:
    walls, diameters = procedure.walls, procedure.diameters
    thickest = walls.at_most.value if walls is not None and walls.at_most is not None else None
    thinnest = walls.at_least.value if walls is not None and walls.at_least is not None else None
    found = dict.fromkeys(_WALLS, _Reach(None, thickest or _THICKEST))
    found.update(dict.fromkeys(_GOVERNING, _Reach(None, (thickest or _THICKEST) * _TIMES)))
    if thickest is not None:
        found["thicker_wall"] = _Reach(None, thickest, elsewhere=True)
    found["thicker_wall"] = found["thicker_wall"]._replace(least=thinnest)
    if diameters is None:
        books = [edition.book or "" for edition in procedure.governed_by]
        pipe = bool(books) and all(book.startswith(_PIPING) for book in books)
        found["outside_diameter"] = _Reach(_SMALL_PIPE, _WIDE_PIPE if pipe else None)
    found["soak_band"] = _Reach(_NARROW, None)
    # A figure that is out of all range is told as that.
    return found | _STEEL | {"preheat": _STEEL["preheat"]._replace(most=None)}


def _verdict(relation: str, value: Quantity, reach: _Reach) -> str:
    """ "no weld" or "every weld"; "" where some do."""
    size, (least, most, _) = value.value, reach
    if relation == ">" and most is not None and size >= most:
        return _NONE
    if relation in (">=", "=") and most is not None and size > most:
        return _NONE
    if relation in (">", ">=") and least is not None and size < least:
        return "every weld"
    if relation in ("<", "<=") and most is not None and size > most:
        return "every weld"
    if relation in ("<", "<=", "=") and least is not None and size < least:
        return _NONE
    return ""


def _conditions(
    procedure: Procedure,
) -> Iterator[tuple[FormulaText, Span, Sequence[FormulaText]]]:
    """Each condition, where it is written, and those of the other rows on the same quantity."""
    lines: list[Any] = [*procedure.treatments, *procedure.forbids, *procedure.allows]
    lines += [*procedure.requires, *procedure.prefers]
    for limit in procedure.limits:
        if limit.when is not None and limit.sound:
            rows = [row for row in procedure.limits if row.quantity == limit.quantity]
            beside = [row.when for row in rows if row is not limit and row.when is not None]
            yield limit.when, limit.place("when"), beside
    for line in lines:
        if line.when is not None and line.sound:
            yield line.when, line.place("when"), ()
    for when in procedure.conditions:
        if when.condition is not None:
            yield when.condition, when.place("condition"), ()


def _comparisons(condition: Formula) -> Iterator[tuple[str, str, Quantity]]:
    """The facts a condition compares with a figure, wherever in it: `t > 25 mm`."""
    # Imported here, for most files hold no procedure.
    from hts.syntax.formula.conditions import Compare
    from hts.syntax.formula.nodes import Literal, Name, Number

    turned = {"<": ">", ">": "<", "<=": ">=", ">=": "<="}
    waiting = [condition.root]
    while waiting:
        node = waiting.pop()
        if not isinstance(node, Compare):
            waiting.extend(node.parts)
            continue
        left, right = node.parts
        relation = node.relation
        if isinstance(left, Literal | Number):
            left, right, relation = right, left, turned.get(relation, relation)
        if isinstance(left, Name) and isinstance(right, Literal):
            yield left.word, relation, right.quantity
        elif isinstance(left, Name) and isinstance(right, Number):
            yield left.word, relation, Quantity.of(right.written, "", COUNT)
