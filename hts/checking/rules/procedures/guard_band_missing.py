"""The range is guarded against measuring uncertainty as the owner wants it."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import asked
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.procedure import GUARD_BANDS

_LINE = "  requires spare for controlling thermocouples"
_REQUIRES = (_LINE, f"  requires guard band expanded uncertainty\n{_LINE}")

RULE = Rule(
    "R108",
    "guard-band-missing",
    "error",
    summary="A treatment without the guard band that a procedure requires.",
    why="A reading at the end of the range may belong to metal that is outside it.",
    fix="State `guard band` as the procedure names it, or a stricter one.",
    source="the procedure that requires it; the decision rules are those of JCGM 106:2012",
    basis="derived",
    bad=(
        Bad((_REQUIRES,), base="procedure", at="stress-relief"),
        Bad(
            (_REQUIRES, ("  rate margin  ", "  guard band one-sided 95 %\n  rate margin  ")),
            base="procedure",
            at="one-sided 95 %",
            says="95 %",
        ),
    ),
    good=(
        Good(
            (_REQUIRES, ("  rate margin  ", "  guard band expanded uncertainty\n  rate margin  ")),
            base="procedure",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    if treatment.is_bake or not heats(treatment):
        return
    stated = treatment.entry.guard_band
    rank = _rank(stated.rule if stated is not None else "none")
    for authority, line in asked(case, case.limits(treatment.joint, treatment), "guard_bands"):
        if _rank(line.rule) <= rank:
            continue
        case.add(
            RULE.found(
                f"{treatment.joint.name}/{treatment.name} has "
                + (f"the guard band {stated.rule}" if stated is not None else "no guard band")
                + f", {authority.name} requires {line.rule}",
                stated.place("rule") if stated is not None else treatment.place("name"),
                address=treatment.address,
                others=[Label(line.place("rule"), "required here")],
                help=f"write `guard band {line.rule}`",
            )
        )
        return


def _rank(rule: str) -> int:
    return GUARD_BANDS.index(rule) if rule in GUARD_BANDS else -1
