"""A demand asks for what is good for the weld, not for the opposite."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain
from hts.checking.rules.helpers.good_ends import (
    DOERS,
    FLAGS,
    HARD,
    HARMS,
    IMPURITIES,
    LESS_IS_BETTER,
    MORE_IS_BETTER,
    OF_ANOTHER,
    PROTECTS,
    QUENCHED,
    WARNED_OF,
)
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.vocabulary.demand_lines import DemandLine, Forbids
from hts.language.vocabulary.demanded import Demanded, Every, Test
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.procedure import Procedure
from hts.syntax.formula import Formula, FormulaError, UnknownFact

_LINE = "  holding spread   at most 25 K"


def _with(*lines: str) -> tuple[tuple[str, str], ...]:
    return ((_LINE, "\n  ".join((_LINE, *lines))),)


#: The owner of the examples asks for spares.
_NO_SPARE = (("  requires spare for controlling thermocouples within 20 mm\n", ""),)

RULE = Rule(
    "R127",
    "demand-turned-round",
    "warning",
    summary="A demand of a procedure that asks for the harmful end of a figure, for a choice that is "
    "itself warned of, or for a least value above the greatest.",
    why="One word turned round asks every job for what harms the weld: the job that does it right is "
    "blamed, and the one that does it wrong passes.",
    fix="Turn it round; where a figure is meant, say why with `because`.",
    source="common practice, no source: the ends that the rules about jobs warn of",
    basis="practice",
    bad=(
        Bad(
            _with("requires filler diffusible hydrogen at least 5 ml/100g"),
            at="at least 5",
            base="owner",
            says="at least 5 ml/100g",
        ),
        Bad(
            _with("requires insulation layers at most 2"),
            at="at most 2",
            base="owner",
            says="at most 2",
        ),
        Bad(
            _with("requires after heat hardness weld at least 225 HBW"),
            at="at least 225 HBW",
            base="owner",
            says="at least 225 HBW",
        ),
        # A limit on a figure has no word `requires`.
        Bad(
            (("recorder interval at most 60 s", "recorder interval at least 60 s"),),
            at="at least 60 s",
            base="owner",
            says="asks for `recorder interval at least 60 s`",
        ),
        Bad(_with("requires sensor break downscale"), at="downscale", base="owner"),
        Bad(
            _with("requires cycle share of hold at most 60 % at heated edge"),
            at="at most 60 %",
            base="owner",
            says="at most 60 % … it says `at most` where usual is `at least`",
        ),
        Bad(
            _with('requires before heat hold point by "Heat-treatment technician"'),
            at="hold point",
            base="owner",
            says="who does the work would release it",
        ),
        Bad(
            _with("requires at most 2 thermocouple monitors heated edge"),
            at="at most 2 thermocouple",
            base="owner",
            says="at most 2 thermocouple monitors heated edge`: more of them are no harm",
        ),
        Bad(_with("requires thermocouples attached banded"), at="banded", base="owner"),
        # The reason is one for the other choice.
        Bad(
            _with('requires sensor break downscale because "A broken wire must not call for heat"'),
            at="downscale",
            base="owner",
        ),
        Bad(_with("forbids leads square to the coil"), at="square", base="owner"),
        Bad(_with("requires cycle finally hold"), at="hold", base="owner"),
        Bad(_with("requires cycle cool in water"), at="water", base="owner"),
        Bad(_with("requires heating ends closed"), at="closed", base="owner"),
        Bad(
            _with("requires preheat measured by contact probe on heated face"),
            at="heated face",
            base="owner",
        ),
        Bad(_with("requires after heat check about permit"), at="permit", base="owner"),
        Bad(
            _with(
                'forbids bake when p_number = 5A because "It cools with its hydrogen and cracks"'
            ),
            at="bake",
            base="owner",
            says="forbids `bake`: that keeps welds from harm",
        ),
        Bad(
            (*_NO_SPARE, *_with("forbids spare for controlling thermocouples")),
            at="spare for",
            base="owner",
            says="forbids `spare for controlling thermocouples`: that keeps welds from harm",
        ),
        Bad(
            _with("requires lead at most 1 m"),
            at="lead at most 1 m",
            base="owner",
            says="at most 1 m`: it says `at most` where usual is `at least`",
        ),
        Bad(_with('forbids permit because "Hot work is under it"'), at="permit", base="owner"),
        Bad(
            _with("requires weld or peen afterwards"),
            at="weld or peen",
            base="owner",
            says="requires `weld or peen afterwards`: a job with it is warned of",
        ),
    ),
    edges=(
        Edge(
            _with("requires welding heat input at least {} at most 2.5 kJ/mm"),
            keeps="2.5 kJ/mm",
            breaks="2.6 kJ/mm",
            base="owner",
            says="at least 2.6 kJ/mm … at most 2.5 kJ/mm",
        ),
    ),
    good=(
        Good(_with("requires filler diffusible hydrogen at most 5 ml/100g"), base="owner"),
        Good(_with("requires insulation layers at least 2 at most 4"), base="owner"),
        Good(_with("requires cycle share of hold at most 60 % at gradient edge"), base="owner"),
        Good(
            _with('requires insulation layers at most 2, because "Three do not fit the clamps"'),
            base="owner",
        ),
        Good(_with("forbids sensor break downscale", "forbids leads along the coil"), base="owner"),
        Good(
            _with("requires after heat hardness weld at least 190 HBW at most 250 HBW"),
            base="owner",
        ),
    ),
)

#: What is watched and checked by as many as the job likes.
_COUNTED = ("joint.thermocouples.thermocouple", "before heat.check", "after heat.hardness")
#: Steels that are solution treated ask for a quench.
_SOLUTION = {"8", "10H", "45"}


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        demands = [
            each for each in _demands(procedure) if not _is_of_a_solution(procedure, *each[:2])
        ]
        low = {_asked(what, test) for _, what, _ in demands for test in what.tests if test.least}
        high = {_asked(what, test) for _, what, _ in demands for test in what.tests if test.most}
        for line, what, turned in demands:
            bare = {*what.paths} if _is_bare(what) else set()
            if bare & {*(PROTECTS if turned else HARMS)}:
                why = "that keeps welds from harm" if turned else "a job with it is warned of that"
                case.add(
                    RULE.found(
                        f"{procedure.name} {_verb(line)} `{what.text}`: {why}",
                        line.place("what"),
                        address=procedure.name,
                        basis=RULE.basis,
                    )
                )
            if not turned and _is_few(what) and not line.note:
                case.add(
                    RULE.found(
                        f"{procedure.name} {_verb(line)} `{what.text}`: more of them are no harm",
                        line.place("what"),
                        address=procedure.name,
                        basis=RULE.basis,
                    )
                )
            for test in what.tests:
                message = _odd(what, test, turned)
                # Where both ends are given, in two lines, too, each is meant.
                both = test.least is None or test.most is None
                both = both and _asked(what, test) in low & high
                # Why one choice is asked for says nothing of the other.
                meant = bool(line.note) and not test.among
                if message and not both and not meant:
                    case.add(
                        RULE.found(
                            f"{procedure.name} {_verb(line)} `{what.text}`: {message}",
                            line.place("what"),
                            address=procedure.name,
                            basis=RULE.basis,
                        )
                    )


def _is_bare(what: Demanded) -> bool:
    """Whether a demand says nothing of an entry but that it is there."""
    return all(
        test.least is None
        and test.most is None
        and all(isinstance(each, Every) for each in test.among)
        for test in what.tests
    )


def _is_few(what: Demanded) -> bool:
    """Whether so many thermocouples or checks, and no more, are asked for."""
    return (
        what.most is not None
        and what.number < what.most
        and any(path.startswith(_COUNTED) for path in what.paths)
    )


def _demands(procedure: Procedure) -> Iterator[tuple[DemandLine | Forbids, Demanded, bool]]:
    """The lines that demand, with what they demand, and whether they want its opposite."""
    for line in (*procedure.requires, *procedure.prefers):
        if line.what is not None and line.sound:
            yield line, line.what, False
    for forbidden in procedure.forbids:
        if forbidden.what is not None and forbidden.sound:
            yield forbidden, forbidden.what, True


def _is_of_a_solution(procedure: Procedure, line: DemandLine | Forbids, what: Demanded) -> bool:
    """Whether a quench is asked for of metal that is solution treated, or under a condition."""
    metals = {*domain(procedure).words.get("p_number", ())}
    quenched = any(str(each) in QUENCHED for test in what.tests for each in test.among)
    return quenched and (bool(metals and metals <= _SOLUTION) or line.when is not None)


def _verb(line: DemandLine | Forbids) -> str:
    """`requires`, and the like; a limit on a figure of a job has no word of its own."""
    return line.words[0] if line.words else "asks for"


def _asked(what: Demanded, test: Test) -> tuple[str, ...]:
    """What a test is of: equal for both ends of one figure."""
    return (*sorted(what.paths), " ".join(test.field.words), test.element)


def _odd(what: Demanded, test: Test, turned: bool) -> str:
    """What is wrong with one test of a demand, "" for nothing."""
    least, most = _fixed(test.least), _fixed(test.most)
    if least is not None and most is not None:
        if not turned and least > most:
            return "the least is more than the most"
        return ""
    if not turned and what.paths & {*OF_ANOTHER}:
        roles = [role for role in test.among if isinstance(role, str) and DOERS.search(role)]
        if roles and len(roles) == len(test.among):
            return "who does the work would release it"
    paths = {path for path in what.paths if path.endswith(".".join(("", *_last(test))))}
    if test.among:
        wrong, right = _words(paths)
        words = [str(each) for each in test.among]
        if any(word in (right if turned else wrong) for word in words) and not (
            {*wrong} & {*words} and {*right} & {*words}
        ):
            return (
                "a job that does so is warned of" if not turned else "that is what is asked of jobs"
            )
        return ""
    if turned and paths & {*FLAGS} and test.least is None and test.most is None:
        return "that is what jobs are asked for"
    asks_more, asks_less = test.least is not None, test.most is not None
    if turned:
        asks_more, asks_less = asks_less, asks_more
    worse_more = bool(paths & {*LESS_IS_BETTER}) or test.element in IMPURITIES
    worse_more |= HARD in paths and not any(each.most is not None for each in what.tests)
    # A share of the hold that the far edge of the insulation may have is kept small.
    far = any("gradient edge" in each.among for each in what.tests)
    if (asks_more and worse_more) or (asks_less and paths & {*MORE_IS_BETTER} and not far):
        asked, usual = (
            ("at least", "at most") if test.least is not None else ("at most", "at least")
        )
        return f"it says `{asked}` where usual is `{usual}`"
    return ""


def _last(test: Test) -> tuple[str, ...]:
    return (" ".join(test.field.words),) if test.field.words else ()


def _words(paths: set[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    return next((WARNED_OF[path] for path in paths if path in WARNED_OF), ((), ()))


def _fixed(bound: Any) -> Any:
    """A bound that hangs on no fact; None for one that does."""
    if not isinstance(bound, FormulaText):
        return bound
    try:
        value = Formula.parse(bound.text).evaluate({})
    except (UnknownFact, FormulaError):
        return None
    return value if isinstance(value, Quantity) else None
