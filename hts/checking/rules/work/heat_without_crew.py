"""Somebody is there for as long as a treatment takes."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.least_time import least_time
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.model.shifts import lasting, longest, shifts, unwatched

_JOB = "  show         SI and US"

RULE = Rule(
    "K110",
    "heat-without-crew",
    "warning",
    summary="A treatment longer than any hours at which a crew is there without a break.",
    why="For the rest of it nobody sees an alarm, a lead that comes off, or a pipe that is on fire.",
    fix="State the crew that takes over, or longer shifts.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_JOB, f"{_JOB}\n  crew days from 06:00 to {{}} watches 3"),),
            keeps="11:56",
            breaks="11:55",
            at="stress-relief",
            says="takes 5:56 h at least … for 5:55 h … from 11:55 to 06:00",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    job = case.spec.file.job
    if job is None or not job.crews or not job.sound or not heats(treatment):
        return
    stated = shifts(job.crews)
    most = longest(stated)
    needed = least_time(case, treatment)
    if most is None or needed <= most:
        return
    case.add(
        RULE.found(
            f"{treatment.name} of {treatment.joint.name} takes {lasting(needed)} at least, and crews "
            f"are there for {lasting(most)} without a break: nobody is there "
            f"{' or '.join(unwatched(stated))}",
            treatment.entry.place("name"),
            address=treatment.address,
            others=[Label(job.crews[0].place(), "the first crew is stated here")],
            basis=RULE.basis,
        )
    )
