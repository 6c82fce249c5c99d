"""Nickel plus manganese of a filler is the sum its analysis gives."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule

#: Mass %: figures of a certificate are rounded.
_ROUNDED = Fraction(3, 100)


def _filler(total: str) -> tuple[tuple[str, str], ...]:
    entries = f"  nickel and manganese {total}\n  composition Mn 0.66 %, Ni 0.32 %\n"
    return (("joint W12 {", f"filler rod {{\n{entries}}}\n\njoint W12 {{"),)


RULE = Rule(
    "M205",
    "nickel-manganese-differs",
    "warning",
    summary="Nickel plus manganese of a filler that is not the sum of its analysis.",
    why="The two lower the transformation temperature: how hot 9Cr welds may be tempered depends "
    "on the sum.",
    fix="State the sum the certificate gives, or leave it to the analysis.",
    source="arithmetic: sum of the two",
    basis="derived",
    edges=(
        Edge(
            _filler("{}"),
            keeps="0.95 %",
            breaks="0.94 %",
            says="0.94 % … up to 0.98 %",
        ),
    ),
    good=(Good(_filler("0.98 %")),),
    agrees=(
        Agreement("filler.nickel and manganese", "filler.composition", "the sum of Ni and Mn"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for filler in case.spec.file.fillers:
        stated = filler.nickel_manganese
        if not filler.sound or stated is None:
            continue
        shares = {share.element: share.fraction for share in filler.composition}
        if "Ni" not in shares or "Mn" not in shares:
            continue
        total = shares["Ni"] + shares["Mn"]
        if abs(total.value - stated.value) > _ROUNDED:
            case.add(
                RULE.found(
                    f"nickel and manganese of {filler.name} are stated as {stated}, the analysis "
                    f"adds up to {total}",
                    filler.place("nickel_manganese"),
                    address=filler.name,
                    others=[Label(filler.place("composition"), "the analysis")],
                )
            )
