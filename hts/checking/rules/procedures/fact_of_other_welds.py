"""A line of a procedure hangs on nothing that the welds it is for do not have."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain
from hts.checking.rules.helpers.formulas import Written, written
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.joint import KINDS
from hts.language.vocabulary.procedure import Treatment
from hts.limits import FACTS

_LINE = "  holding spread   at most 25 K"
_TIME = "  hold time        at least 2.5 min/mm * t"
_KINDS = "  applies to wall      at most 75 mm"

RULE = Rule(
    "R122",
    "fact-of-other-welds",
    "warning",
    summary="A line of a procedure that is worked out from, or hangs on, what the welds it is for "
    "do not have or seldom state: a pad, a throat, a heavier section.",
    why="For every other weld the line cannot be worked out, and nobody asks for what it was "
    "written to ask for.",
    fix="Name the fact that is meant, such as `t`; or give the line the kind of weld "
    "(`when weld_kind = branch`), or `when heavy_wall is known`.",
    source="arithmetic: the kinds of weld that have the fact, by the language itself",
    basis="derived",
    bad=(
        Bad(
            ((_TIME, "  hold time        at least 2.5 min/mm * pad_thickness"),),
            base="owner",
            at="2.5 min/mm * pad_thickness",
            says="pad_thickness … girth butt",
        ),
        Bad(
            ((_TIME, "  hold time        at least 2.5 min/mm * heavy_wall"),),
            base="owner",
            at="2.5 min/mm * heavy_wall",
            says="heavy_wall … few",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  requires junction cover when groove_depth > 10 mm"),),
            base="owner",
            at="groove_depth > 10 mm",
            says="groove_depth … few",
        ),
    ),
    good=(
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  hold time at least 3 min/mm * heavy_wall when heavy_wall is known",
                ),
            ),
            base="owner",
        ),
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  requires junction cover when weld_kind = branch and branch_wall > 9 mm",
                ),
            ),
            base="owner",
        ),
        Good(
            (
                (_KINDS, f"{_KINDS}\n  applies to kind branch"),
                (_LINE, f"{_LINE}\n  preheat width at least 3 * max(run_wall, branch_wall)"),
            ),
            base="owner",
        ),
    ),
)

#: What an exemption rests on is stated where somebody claims it.
#: What only a part heated whole has by its length.
_BY_LENGTH = ("thermocouples", "furnace overlap")
_OF_EXEMPTIONS = "qualified_thickness"


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        kinds = domain(procedure).words.get("weld_kind", KINDS)
        for line in written(procedure):
            for fact in line.names:
                lacking = _lacking(line, fact, tuple(kind.replace("-", " ") for kind in kinds))
                if lacking:
                    case.add(
                        RULE.found(
                            f"{line.about} hangs on {fact}, {lacking}",
                            line.place,
                            address=procedure.name,
                        )
                    )
                    break


def _lacking(line: Written, fact: str, kinds: tuple[str, ...]) -> str:
    """Why most welds have no such fact, "" where they have, or where the line looks for those that
    do."""
    kind = FACTS[fact]
    if not (kind.kinds or kind.seldom) or line.asks_whether_known(fact):
        return ""
    if "weld_kind" in line.when or (isinstance(line.line, Treatment) and fact == _OF_EXEMPTIONS):
        return ""
    if kind.seldom:
        if fact == "groove_depth" and set(kinds) == {"repair"}:
            return ""
        if fact == "part_length" and (
            "furnace" in line.when or getattr(line.line, "quantity", "").endswith(_BY_LENGTH)
        ):
            return ""
        return "which few welds state"
    others = [each for each in kinds if each not in kind.kinds]
    return f"which a {others[0]} does not have" if others else ""
