"""The filler suits one of the metals joined."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.material import Filler

#: Base metals whose fillers the table knows.
_KNOWN = {"1", "3", "4", "5A", "5B", "15E"}


def _welded_with(classification: str) -> tuple[tuple[str, str], ...]:
    return (
        ("joint W12 {", f'filler rod {{ classification "{classification}" }}\n\njoint W12 {{'),
        ('"WPS-12" layers multiple', '"WPS-12" layers multiple filler rod'),
    )


RULE = Rule(
    "M206",
    "filler-of-other-alloy",
    "warning",
    summary="A filler whose deposit matches neither of the metals joined.",
    why="The deposit is treated with a range made for another metal: it softens, or stays hard.",
    fix="Name the filler of the welding procedure, or correct its classification.",
    source="AWS A5 classifications and ASME IX P-numbers, from memory",
    basis="memory",
    bad=(Bad(_welded_with("E8018-B2"), at="rod", says="1"),),
    good=(Good(_welded_with("ER90S-B3")), Good(_welded_with("ENiCrFe-3"))),
    agrees=(
        Agreement("joint.welding.filler", "joint.between.first", "the deposit suits a side"),
        Agreement("filler.classification", "material.p-number", "the deposit suits the P-number"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    welding = joint.entry.welding
    filler = welding.filler.target if welding is not None and welding.filler is not None else None
    if welding is None or not isinstance(filler, Filler) or filler.classification is None:
        return
    figures = [side.figure("p_number") for side in joint.sides]
    numbers = {str(figure.value) for figure in figures if figure is not None}
    if filler.nickel_based or len(numbers) == 0 or not numbers <= _KNOWN:
        return
    from hts.science.tables.fillers import deposit

    named = deposit(filler.classification)
    if named is None or numbers & set(named.p_numbers):
        return
    case.add(
        RULE.found(
            f"the deposit of {filler.name}, {named.name}, is made for P-number "
            f"{' and '.join(named.p_numbers)}; {joint.name} joins P-number "
            f"{' and '.join(sorted(numbers))}",
            welding.place("filler"),
            address=joint.address,
            others=[Label(filler.place("classification"), "its classification")],
            basis=RULE.basis,
        )
    )
