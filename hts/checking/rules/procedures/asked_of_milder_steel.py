"""What guards a weld is asked of the steel that hardens more, not of the milder one alone."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain
from hts.checking.rules.helpers.good_ends import PROTECTS
from hts.checking.rules.helpers.metals_of_conditions import metals_of
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.demand_lines import Requires
from hts.language.vocabulary.procedure import Procedure

_LINE = "  holding spread   at most 25 K"


def _with(*lines: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, "\n  ".join((_LINE, *lines))),)


RULE = Rule(
    "R143",
    "asked-of-milder-steel",
    "warning",
    summary="A safeguard, such as a bake, a spare or one more thermocouple, that a procedure asks for where the steel is the "
    "mildest of those it is for, and not where it is one that hardens.",
    why="One P-number for another, or `=` for `!=`: the weld that the line was written for goes without.",
    fix="Correct the condition; where it is meant, say why with `because`.",
    source="common practice, no source: what hardens more is asked for more",
    basis="practice",
    bad=(
        Bad(
            _with("requires monitor weld count 1 when p_number = 1"),
            base="owner",
            at="p_number = 1",
            says="asks for `monitor weld count 1` of P-1, and not of P-5A",
        ),
        Bad(
            _with("requires bake when p_number != 5A and thicker_wall > 13 mm"),
            base="owner",
            at="p_number != 5A and thicker_wall > 13 mm",
            says="asks for `bake` of P-4, and not of P-5A",
        ),
    ),
    good=(
        Good(_with("requires monitor weld count 1 when p_number = 5A"), base="owner"),
        Good(_with("requires monitor weld count 1 when p_number in (4, 5A)"), base="owner"),
        Good(
            _with('requires monitor weld count 1 when p_number = 1 because "The yard has seen it"'),
            base="owner",
        ),
        # Another line asks the others for it.
        Good(
            _with(
                "requires monitor weld count 1 when p_number = 1",
                "requires monitor weld count 2 when p_number in (4, 5A)",
            ),
            base="owner",
        ),
        # For carbon steel in sour service there is a limit of its own.
        Good(
            _with("requires after heat hardness weld at most 200 HBW when p_number = 1"),
            base="owner",
        ),
    ),
)

#: From the steel that hardens least to the one that hardens most.
_ORDER = ("1", "3", "4", "5A", "5B", "5C", "15E")
#: Safeguards besides those nobody forbids.
_MORE = (
    "joint.thermocouples.thermocouple.monitors",
    "joint.thermocouples.thermocouple.controls",
    "joint.thermocouples.thermocouple.within",
    "cycle.guard band.rule",
    "preheat.maintain at least",
    "bake.test after",
    "joint.qualified.hold",
)
#: Of hardness, tests and papers each steel has its own.
_OWN = (
    "after heat.",
    "before heat.",
    "job.",
    "joint.drawing",
    "joint.line",
    "material.",
    "recorder.",
)
_GUARDS = tuple(path for path in (*PROTECTS, *_MORE) if not path.startswith(_OWN))


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        metals = domain(procedure).words.get("p_number", ())
        scope = [metal for metal in _ORDER if metal in metals]
        for line in procedure.requires if len(scope) > 1 else ():
            asked = _of(line, scope)
            left = [metal for metal in scope if metal not in asked]
            if not asked or not left or _ORDER.index(left[-1]) < _ORDER.index(asked[-1]):
                continue
            assert line.what is not None and line.when is not None
            if (
                line.note
                or not line.what.paths & {*_GUARDS}
                or _elsewhere(procedure, line, left[-1], scope)
            ):
                continue
            case.add(
                RULE.found(
                    f"{procedure.name} asks for `{line.what.text}` of P-{asked[-1]}, and not of P-{left[-1]}",
                    line.place("when"),
                    address=procedure.name,
                    basis=RULE.basis,
                )
            )


def _of(line: Requires, scope: list[str]) -> list[str]:
    """The metals of the scope a line is for."""
    if line.what is None or line.when is None or not line.sound:
        return []
    return metals_of(line.when.text, scope)


def _elsewhere(procedure: Procedure, line: Requires, metal: str, scope: list[str]) -> bool:
    """Whether another line asks the same of the metal that is left out."""
    assert line.what is not None
    for other in procedure.requires:
        if other is line or other.what is None or not other.what.paths & line.what.paths:
            continue
        if other.when is None or metal in _of(other, scope):
            return other.when is not None or other.what.text == line.what.text
    return False
