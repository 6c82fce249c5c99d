"""A controller program is named with its revision."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment


def _with(lines: str) -> tuple[tuple[str, str], ...]:
    return (("  rate margin  ", f"  {lines}\n  rate margin  "),)


RULE = Rule(
    "Y116",
    "program-without-revision",
    "warning",
    summary="A controller program without its revision.",
    why="The controller may hold the program of an earlier sheet under the same name.",
    fix="Write `program revision` with the revision of the program.",
    source="common practice, no source",
    basis="practice",
    about=(
        "cycle.program revision",
        "bake.program revision",
    ),
    bad=(Bad(_with('program "P12"'), at='"P12"'),),
    good=(Good(_with('program "P12"\n  program revision B')), Good(_with('program "P12 rev B"'))),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    if entry.program is None or entry.program_revision is not None:
        return
    # Many programs carry the revision in their name.
    if "rev" not in entry.program.lower():
        case.add(
            RULE.found(
                f"nothing says which revision of program {entry.program} {treatment.name} runs",
                entry.place("program"),
                address=treatment.address,
                basis=RULE.basis,
            )
        )
