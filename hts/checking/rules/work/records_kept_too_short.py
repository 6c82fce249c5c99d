"""Records are kept as long as the code of the piping asks."""

from __future__ import annotations

from hts.base.quantities import TIME, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

#: Five years, one of them or two of which may be a leap year.
_LEAST = Quantity.of(1825, "d", TIME)
_BOOKS = ("asme-b31.3",)
_AFTER = (
    "controller C1 {",
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    "  insulation resistance at least 1 Mohm\n}}\n\nduring heat W12 {{ reading every 1 h }}\n\n"
    "after heat W12 {{\n  hardness weld at most 241 HBW count 3\n  keep records {}\n}}\n\ncontroller C1 {{",
)

RULE = Rule(
    "K141",
    "records-kept-too-short",
    "warning",
    summary="Records of a heat treatment kept for less than five years, under a code that asks for five.",
    why="They are gone when the first leak is asked about.",
    fix="Keep them for 1826 d and more, or as long as the owner asks.",
    source="ASME B31.3 346.3 (from memory): five years",
    basis="memory",
    edges=(
        Edge(
            ((_AFTER[0], _AFTER[1].format("{}")),),
            keeps="1825 d",
            breaks="1824 d",
            says="kept for 1824 d, and asme-b31.3 asks for five years, 1825 d",
        ),
    ),
    good=(Good(((_AFTER[0], _AFTER[1].format("3653 d")),)),),
    agrees=(Agreement("after heat.keep records", "job.governed by", "as long as the code asks"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not treated(joint) or not any(block.keep for block in joint.after):
        return
    governed = {each.name for each in case.authorities if each.is_book}
    book = next((each for each in _BOOKS if each in governed), None)
    for block in joint.after if book is not None else ():
        if block.keep is not None and block.keep < _LEAST:
            case.add(
                RULE.found(
                    f"the records of {joint.name} are kept for {block.keep}, and {book} asks for five years, {_LEAST}",
                    block.place("keep"),
                    address=f"{joint.address}/after-heat",
                    basis=RULE.basis,
                )
            )
