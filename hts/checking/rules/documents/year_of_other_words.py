"""A shutdown is called by the year of its work."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.job_words import headings
from hts.checking.rules.rule import Agreement, Edge, Good, Rule

_SHOW = "  show         SI and US\n"

RULE = Rule(
    "D125",
    "year-of-other-words",
    "warning",
    summary="A project, title or purpose that names a shutdown, turnaround or outage of a year before the revision of the job.",
    why="It was copied from the job of the last one: papers and records are filed there.",
    fix="Correct the year, or the date of the revision.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_SHOW, f'{_SHOW}  project "Shutdown {{}}"\n'),),
            keeps="2026",
            breaks="2025",
            at='"Shutdown 2025"',
            says="speaks of Shutdown 2025, and the revision is of 2026",
        ),
    ),
    good=(
        Good(((_SHOW, f'{_SHOW}  project "Shutdown 2027"\n'),)),
        Good(((_SHOW, f'{_SHOW}  project "Defects found in the shutdown of 2025"\n'),)),
    ),
    agrees=(Agreement("job.project", "job.revision.on", "of that year or later"),),
)

_YEAR = re.compile(
    r"^(?:\w+ )?(?:shutdown|turnaround|outage|overhaul|refit|revamp) ((?:19|20)\d\d)$",
    re.IGNORECASE,
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    on = job.revision.on if job is not None and job.revision is not None else None
    if job is None or on is None:
        return
    texts = [(words.what, words.text, words.at) for words in headings(case)]
    if isinstance(job.project, str):
        texts.append(("project", job.project, job.place("project")))
    for what, text, at in texts:
        found = _YEAR.search(text.strip())
        if found is not None and found[1] < on[:4]:
            case.add(
                RULE.found(
                    f"the {what} of the job speaks of {found[0]}, and the revision is of {on[:4]}",
                    at,
                    address=job.name if isinstance(job.name, str) else "",
                    others=[Label(job.revision.place("on"), "the revision")],
                    basis=RULE.basis,
                )
            )
