"""A file that says how a weld is heated says for which job, and under which books."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.vocabulary.declare import Entry

_JOB = """job "Tern Island (invented): header butt" {
  number       "HT-0001"
  revision     A on 2026-10-02 status for construction
  history {
    A on 2026-10-02 "First issue"
  }
  governed by  asme-b31.3 edition 2018, local-heating
  show         SI and US
  signed {
    prepared   "Heat-treatment engineer"
    checked    "Welding engineer"
    approved   "Owner's engineer"
  }
}

"""

RULE = Rule(
    "D112",
    "work-without-job",
    "error",
    floor="error",
    summary="Preheat, bake or heat treatment of a joint in a file without a job.",
    why="Without a job no book and no procedure is in force: nothing of it has been judged.",
    fix="Add the `job` with the books that govern it, or keep only joints and equipment in a library.",
    source="derived: the books and procedures in force are those the job names",
    basis="derived",
    bad=(Bad(((_JOB, ""),), at="W12"),),
    good=(Good((("procedure P-07", "procedure P-07"),), base="owner"),),
)


@RULE.for_spec
def check(case: Case) -> None:
    file = case.spec.file
    # A job that could not be read has been reported.
    if file.job is not None or not file.sound:
        return
    work: list[Entry] = [*file.preheats, *file.bakes, *file.cycles]
    if not work:
        return
    first = min(work, key=lambda entry: entry.start)
    case.add(
        RULE.found(
            "this file heats a joint, but has no job: no book and no procedure is in force",
            first.place("joints"),
            address=first.address,
        )
    )
