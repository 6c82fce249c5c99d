"""What a procedure demands and forbids leaves welds it says it is for, under the books it was written to."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.vocabulary.procedure import Procedure

_LINE = "  holding spread   at most 25 K"
_WALL = "  applies to wall      at most 75 mm\n"


def _with(line: str, head: str = "") -> tuple[tuple[str, str], ...]:
    return ((_WALL, _WALL + head), (_LINE, f"{_LINE}\n  {line}"))


_METHODS = "  applies to method resistance, induction\n"
_BOOK = "  governed by asme-viii-2 edition 2010\n"

RULE = Rule(
    "R140",
    "demand-unlike-scope",
    "warning",
    summary="A procedure that forbids what its scope names, demands what its scope leaves out, or demands a rule book it was not "
    "written to.",
    why="Every job of one half of the scope breaks it, whatever it does.",
    fix="Correct the demand, or what the procedure applies to.",
    source="derived: what is demanded of every job, and what the procedure is said to be for",
    basis="derived",
    bad=(
        Bad(
            _with("forbids heating by resistance", _METHODS),
            base="owner",
            at="heating by resistance",
            says="P-07 forbids `heating by resistance`, and applies to resistance",
        ),
        Bad(
            _with("requires heating by furnace", _METHODS),
            base="owner",
            at="heating by furnace",
            says="demands `heating by furnace`, and applies to resistance, induction",
        ),
        Bad(
            _with("requires governed by asme-viii-1", _BOOK),
            base="owner",
            at="governed by asme-viii-1",
            says="demands `governed by asme-viii-1`, and is itself governed by asme-viii-2",
        ),
    ),
    good=(
        Good(_with("forbids heating by gas", _METHODS), base="owner"),
        Good(_with("forbids heating by induction when p_number = 5A", _METHODS), base="owner"),
        Good(_with("requires heating by resistance or induction", _METHODS), base="owner"),
        Good(_with("requires governed by asme-viii-2", _BOOK), base="owner"),
        Good(_with("requires governed by asme-viii-1"), base="owner"),
    ),
    agrees=(
        Agreement("procedure.requires.what", "procedure.governed by", "the books it is written to"),
        Agreement("procedure.forbids.what", "procedure.applies to method", "not what it is for"),
    ),
)

#: What is said of a job, and which line of the scope says it of the procedure.
_SCOPE = {"joint.heating.by": "methods", "joint.kind": "kinds", "joint.service": "services"}


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for line, message, other in _unlike(procedure):
            case.add(
                RULE.found(
                    f"{procedure.name} {message}",
                    line.place("what"),
                    address=procedure.name,
                    others=[Label(other, "its scope")],
                )
            )


def _unlike(procedure: Procedure) -> Iterator[tuple[Any, str, Span]]:
    for line in procedure.forbids:
        if line.what is None or line.when is not None:
            continue
        for scope, words in _scopes(procedure, line):
            hit = [word for word in words if word in scope.each]
            if hit and all(word in scope.each for word in words):
                yield (
                    line,
                    f"forbids `{line.what.text}`, and applies to {', '.join(hit)}",
                    scope.place(),
                )
    for demand in procedure.requires:
        if demand.what is None or demand.when is not None or demand.otherwise is not None:
            continue
        for scope, words in _scopes(procedure, demand):
            if not set(words) & set(scope.each):
                named = ", ".join(scope.each)
                yield demand, f"demands `{demand.what.text}`, and applies to {named}", scope.place()
        yield from _books(procedure, demand)


def _scopes(procedure: Procedure, line: Any) -> Iterator[tuple[Any, list[str]]]:
    """The lines of the scope that a demand speaks of, each with the words of the demand."""
    what = line.what
    for path, name in _SCOPE.items():
        scope = getattr(procedure, name)
        if what is None or scope is None or path not in what.paths or len(what.tests) != 1:
            continue
        words = [str(word) for word in what.tests[0].among]
        if words:
            yield scope, words


def _books(procedure: Procedure, line: Any) -> Iterator[tuple[Any, str, Span]]:
    asked = [
        value.book
        for test in line.what.tests
        for value in test.among
        if "job.governed by" in line.what.paths
    ]
    own = [edition.book for edition in procedure.governed_by]
    if asked and own and not set(asked) & set(own):
        message = (
            f"demands `{line.what.text}`, and is itself governed by {', '.join(map(str, own))}"
        )
        yield line, message, procedure.place("governed_by")
