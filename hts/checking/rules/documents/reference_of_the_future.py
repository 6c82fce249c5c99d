"""A document the work refers to was there when the job was issued."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule

_SHOW = "  show         SI and US\n"
_YEAR = re.compile(r"(?:19|20|21)\d\d(?:-\d\d(?:-\d\d)?)?")

RULE = Rule(
    "D123",
    "reference-of-the-future",
    "warning",
    summary="A reference whose edition is a year after the one the job was issued in.",
    why="There is no such edition: the digits slipped, and whoever looks it up takes the one at hand.",
    fix="Write the year on its title page.",
    source="arithmetic: year of the edition against that of the issue",
    basis="derived",
    edges=(
        Edge(
            ((_SHOW, f'{_SHOW}  reference "Welding of alloy piping" edition "{{}}"\n'),),
            keeps="2026",
            breaks="2027",
            says="of 2027, and the job is of 2026-10-02",
        ),
    ),
    good=(
        Good(((_SHOW, f'{_SHOW}  reference "Piping class A3" edition "4"\n'),)),
        Good(((_SHOW, f'{_SHOW}  reference "Piping class A3" edition "2091-B"\n'),)),
    ),
    agrees=(Agreement("job.reference.edition", "job.revision.on", "no later than its year"),),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    if job is None or job.revision is None or job.revision.on is None:
        return
    day = job.revision.on
    for document in job.sources:
        edition = (document.edition or "").strip()
        if _YEAR.fullmatch(edition) and int(edition[:4]) > int(day[:4]):
            case.add(
                RULE.found(
                    f"{document.title} is referred to in an edition of {edition}, and the job is of {day}",
                    document.place("edition"),
                    address=f"{job.name}/references",
                    others=[Label(job.revision.place("on"), "issued")],
                )
            )
