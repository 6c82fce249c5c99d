"""Steel that hardens is rid of its hydrogen before it is cold."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.metals import p_numbers
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment

#: Of 2 % chromium and more.
_HARDEST = ("5A", "5B", "5C", "15E")
#: Out of thinner welds enough hydrogen escapes while they are welded, mm.
_THIN = 13
_BEGINS = "  begins            from preheat"

RULE = Rule(
    "P145",
    "baked-after-cooling",
    "warning",
    summary="A weld of 2 % chromium or more, 13 mm thick or thicker, that is baked after it has cooled.",
    why="Cold, hard and full of hydrogen it cracks within hours; a bake afterwards finds the cracks there.",
    fix="Keep the preheat until the bake, and begin the bake from it.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_BEGINS, "  begins            after cooling"),),
            base="bake",
            at="after cooling",
            says="W12 is baked after cooling … P-5A",
        ),
    ),
    good=(Good((), "bake"),),
    agrees=(Agreement("bake.begins", "material.grade", "before hardening steel is cold"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    joint = treatment.joint
    begins: str | None = getattr(treatment.entry, "begins", None)
    if not treatment.is_bake or begins != "after cooling":
        return
    # What is kept hot until a bake that begins cold is told as that.
    if joint.preheat is not None and joint.preheat.until == "bake":
        return
    hard = next((number for number in p_numbers(joint) if number in _HARDEST), None)
    thickness = limits_of(case, joint).thickness
    if hard is None or (thickness is not None and thickness.value < _THIN):
        return
    case.add(
        RULE.found(
            f"{joint.name} is baked after cooling, and its steel, P-{hard}, hardens as it cools",
            treatment.place("begins"),
            address=treatment.address,
            basis=RULE.basis,
        )
    )
