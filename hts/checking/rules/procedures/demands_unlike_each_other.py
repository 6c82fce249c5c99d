"""What a procedure demands in one line fits what it demands in the next."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from typing import Any

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity, QuantityError
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import rows
from hts.checking.rules.helpers.rows import own_procedures, place
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.vocabulary.procedure import Procedure
from hts.limits import Limit

_LINE = "  holding spread   at most 25 K"


def _with(*lines: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, "\n  ".join((_LINE, *lines))),)


RULE = Rule(
    "R141",
    "demands-unlike-each-other",
    "warning",
    summary="A procedure that demands an extension cable of another type than its thermocouples, or a purpose that its own "
    "hold cannot serve.",
    why="No job can keep both lines and be right; the one that keeps one of them is blamed for the other.",
    fix="Correct the one that is the slip.",
    source="IEC 60584-3 (the letter of an extension cable is that of its type); normalizing lies above, stress relief and "
    "tempering below the lower critical temperature: common practice",
    basis="practice",
    bad=(
        Bad(
            _with("requires thermocouples type K", "requires thermocouples extension JX"),
            base="owner",
            at="thermocouples extension JX",
            says="extension JX`, and thermocouples of type K",
        ),
        Bad(
            _with(
                "requires cycle purpose stress relief",
                "hold temperature at least 900 degC at most 950 degC",
            ),
            base="owner",
            at="cycle purpose stress relief",
            says="purpose stress relief`, and a hold of at least 900 degC",
        ),
    ),
    edges=(
        Edge(
            _with(
                "requires cycle purpose normalizing",
                "hold temperature at least 700 degC at most {}",
            ),
            keeps="850 degC",
            breaks="849 degC",
            base="owner",
            at="cycle purpose normalizing",
            says="purpose normalizing`, and a hold of at most 849 degC",
        ),
    ),
    good=(
        Good(_with("requires thermocouples type K or N", "requires thermocouples extension NX"), base="owner"),
        Good(_with("requires thermocouples type K", "requires thermocouples extension KX"), base="owner"),
        Good(
            _with("requires cycle purpose stress relief", "hold temperature at least 690 degC at most 740 degC"),
            base="owner",
        ),
        Good(
            _with(
                "requires cycle purpose normalizing or stress relief",
                "hold temperature at least 600 degC at most 650 degC",
            ),
            base="owner",
        ),
    ),
    agrees=(
        Agreement("procedure.requires.what", "procedure.hold temperature.at most", "the purpose fits the hold"),
    ),
)  # fmt: skip

#: Purposes that need metal above, and below, its lower critical temperature.
_ABOVE = ("normalizing", "solution treatment")
_BELOW = ("stress relief", "intermediate stress relief", "repeated stress relief", "tempering")
_COLDEST = Quantity.of(850, "degC", TEMPERATURE)
_HOTTEST = Quantity.of(880, "degC", TEMPERATURE)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for line, with_what, other in (*_cables(procedure), *_purposes(procedure)):
            case.add(
                RULE.found(
                    f"{procedure.name} demands `{line.what.text}`, and {with_what}",
                    line.place("what"),
                    address=procedure.name,
                    others=[Label(other, "the other line")],
                    basis=RULE.basis,
                )
            )


def _asked(procedure: Procedure, path: str) -> Iterator[tuple[Any, list[str]]]:
    """The unconditional demands of a word, each with the words that will do."""
    for line in procedure.requires:
        what = line.what
        if what is None or line.when is not None or line.otherwise is not None:
            continue
        if path in what.paths:
            name = path.rsplit(".", 1)[1]
            for test in what.tests:
                if test.among and name in (test.field.name, " ".join(test.field.words)):
                    yield line, [str(word) for word in test.among]


def _cables(procedure: Procedure) -> Iterator[tuple[Any, str, Span]]:
    types = list(_asked(procedure, "joint.thermocouples.type"))
    for line, codes in _asked(procedure, "joint.thermocouples.extension.code"):
        for other, letters in types:
            if not {code[:1].upper() for code in codes} & {letter.upper() for letter in letters}:
                yield line, f"thermocouples of type {' or '.join(letters)}", other.place("what")


def _purposes(procedure: Procedure) -> Iterator[tuple[Any, str, Span]]:
    held = [row for row in rows(procedure) if row.quantity == "hold temperature"]
    for line, purposes in _asked(procedure, "cycle.purpose"):
        if all(purpose in _ABOVE for purpose in purposes):
            tops = [(_fixed(row, "maximum"), row) for row in held]
            known = [(top, row) for top, row in tops if top is not None]
            if known and all(top < _COLDEST for top, _ in known):
                top, row = max(known, key=lambda each: each[0])
                yield line, f"a hold of at most {top}", place(procedure, row, "maximum")
        if all(purpose in _BELOW for purpose in purposes):
            for row in held:
                least = _fixed(row, "minimum")
                if least is not None and least > _HOTTEST:
                    yield line, f"a hold of at least {least}", place(procedure, row, "minimum")


def _fixed(row: Limit, direction: str) -> Quantity | None:
    bound = getattr(row, direction)
    if bound is not None:
        with suppress(QuantityError):
            return Quantity.read(bound.text, TEMPERATURE)
    return None
