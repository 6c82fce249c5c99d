"""Demands of one procedure can be met together."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Any

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.vocabulary.declare import FLAG
from hts.language.vocabulary.demand_lines import Forbids, Requires
from hts.language.vocabulary.demanded import Demanded, Test, stated
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.procedure import Procedure
from hts.language.vocabulary.types import Text

_LINE = "  forbids          lower-temperature hold\n"


def _lines(*texts: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, _LINE + "".join(f"  {text}\n" for text in texts)),)


RULE = Rule(
    "R119",
    "demands-exclude-each-other",
    "error",
    summary="Two demands of a procedure that no job meets together: required and forbidden, two "
    "choices, a least above a greatest.",
    why="Whoever writes the job has to break one of them, and chooses which.",
    fix="Take one of them out, or say with `when` which is for what.",
    source="derived",
    basis="derived",
    bad=(
        Bad(
            _lines("requires heating by induction", "forbids heating by induction or gas"),
            at="forbids",
            base="owner",
        ),
        Bad(
            _lines("requires thermocouples type K", "requires thermocouples type N"),
            at="requires",
            base="owner",
        ),
        # A test piece that was never treated had no hold.
        Bad(
            _lines(
                "requires joint qualified hold at least 4 h",
                "requires joint qualified condition without heat treatment",
            ),
            at="requires",
            base="owner",
            says="at least 4 h",
        ),
    ),
    edges=(
        Edge(
            _lines(
                "requires insulation thickness at most {}",
                "requires insulation thickness at least 50 mm",
            ),
            keeps="50 mm",
            breaks="49 mm",
            at="requires",
            base="owner",
            says="at most 49 mm … at least 50 mm",
        ),
    ),
    good=(
        Good(
            _lines(
                "requires thermocouples type K or N",
                "requires thermocouples type N when p_number = 5A",
                "forbids thermocouples attached contact",
                "requires thermocouples attached capacitor discharge",
                "requires after heat hardness weld at most 241 HBW",
                "requires after heat hardness base metal at most 200 HBW",
            ),
            base="owner",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in case.spec.procedures:
        if procedure.source is not case.spec.source:
            continue
        for first, second in _clashes(procedure):
            assert first.what is not None and second.what is not None
            case.add(
                RULE.found(
                    f"no job meets both `{_said(first)}` and `{_said(second)}` of {procedure.name}",
                    second.place(),
                    address=procedure.name,
                    others=[Label(first.place(), "the other one")],
                )
            )


def _said(line: Requires | Forbids) -> str:
    assert line.what is not None
    return " ".join((*type(line).words, line.what.text))


def _clashes(procedure: Procedure) -> Iterator[tuple[Requires, Requires | Forbids]]:
    required = [line for line in procedure.requires if line.what and line.otherwise is None]
    for one, other in combinations(required, 2):
        assert one.what is not None and other.what is not None
        if _together(one, other) and _both(one.what, other.what):
            yield one, other
    if any(line.what is not None for line in procedure.allows):
        return
    for line in required:
        for forbidden in procedure.forbids:
            assert line.what is not None
            if forbidden.what is None or not _together(line, forbidden):
                continue
            if _covers(forbidden.what, line.what):
                yield line, forbidden


def _together(one: Requires, other: Requires | Forbids) -> bool:
    """Whether both hold wherever one does: under no condition, or the same."""
    conditions = [" ".join(line.when.text.split()) if line.when else "" for line in (one, other)]
    shared = set(one.what.targets) & set(other.what.targets)  # type: ignore[union-attr]
    return bool(shared) and conditions[0] == conditions[1]


def _both(one: Demanded, other: Demanded) -> bool:
    """Whether no entry can meet two demands that speak of the same one."""
    if sorted(test.words for test in one.telling) != sorted(t.words for t in other.telling):
        return False
    if (_has_hold(one) and _is_untreated(other)) or (_has_hold(other) and _is_untreated(one)):
        return True
    mine = {test.field.name: test for test in one.tests}
    return any(
        test.field.name in mine and _apart(mine[test.field.name], test) for test in other.tests
    )


def _has_hold(demanded: Demanded) -> bool:
    """Whether the test piece is to have been held hot."""
    return "joint.qualified.hold" in demanded.paths


def _is_untreated(demanded: Demanded) -> bool:
    """Whether the test piece is to have had no heat treatment."""
    return any(
        test.field.name == "condition" and {*test.among} == {"without heat treatment"}
        for test in demanded.tests
        if "joint.qualified.condition" in demanded.paths
    )


def _apart(one: Test, other: Test) -> bool:
    """Whether no value of a field passes both tests, as far as fixed values tell."""
    if one.element != other.element or one.field.many or isinstance(stated(one.field), Text):
        return False
    if one.every or other.every:
        return False  # each of the values is for another entry
    if one.among and other.among:
        return not any(_like(a, b) for a in one.among for b in other.among)
    low = [t.least for t in (one, other) if _fixed(t.least)]
    high = [t.most for t in (one, other) if _fixed(t.most)]
    return bool(low and high) and type(low[0]) is type(high[0]) and max(low) > min(high)


def _covers(forbidden: Demanded, required: Demanded) -> bool:
    """Whether all that meets a demand is forbidden."""
    mine = {test.field.name: test for test in required.tests}
    return all(
        test.field.name in mine and _within(mine[test.field.name], test) for test in forbidden.tests
    )


def _within(inner: Test, outer: Test) -> bool:
    if outer.field.form == FLAG or not (outer.among or outer.least or outer.most or outer.element):
        return True
    if outer.among and inner.among:
        return all(any(_like(a, b) for b in outer.among) for a in inner.among)
    return False


def _like(one: Any, other: Any) -> bool:
    return type(one) is type(other) and not isinstance(one, FormulaText) and bool(one == other)


def _fixed(bound: Any) -> bool:
    return bound is not None and not isinstance(bound, FormulaText)
