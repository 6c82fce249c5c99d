"""Somebody is there for as long as a treatment takes."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.least_time import least_time
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.model.shifts import day, lasting, longest, shifts, unwatched

_JOB = "  show         SI and US"


def _crews(days: str, nights: str) -> tuple[tuple[str, str], ...]:
    crews = f"  crew days {days} watches 3\n  crew nights {nights} watches 2"
    return ((_JOB, f"{_JOB}\n{crews}"),)


RULE = Rule(
    "K110",
    "heat-without-crew",
    "warning",
    summary="A treatment longer than any hours at which a crew is there without a break, or crews that are "
    "there all day and night but for a few hours between two of them.",
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
        Edge(
            _crews("from 06:00 to 18:00", "from {} to 06:00"),
            keeps="18:00",
            breaks="18:01",
            at="stress-relief",
            says="nobody is there from 18:00 to 18:01, for 0:01 h",
        ),
        Edge(
            _crews("from 06:00 to {}", "from 18:00 to 06:00"),
            keeps="14:59",
            breaks="15:00",
            at="stress-relief",
            says="from 15:00 to 18:00, for 3:00 h",
        ),
    ),
    good=(Good(_crews("from 06:00 to 19:00", "from 18:00 to 06:00")),),
)
#: Minutes. Whoever leaves out more than this does not work round the clock.
_GAP = 3 * 60


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    job = case.spec.file.job
    if job is None or not job.crews or not job.sound or not heats(treatment):
        return
    stated = shifts(job.crews)
    most = longest(stated)
    needed = least_time(case, treatment)
    if most is None:
        return
    gaps = unwatched(stated)
    gone = sum(stretch.end - stretch.begin for stretch in day(stated) if not stretch.heats)
    if needed > most:
        told = (
            f"{treatment.name} of {treatment.joint.name} takes {lasting(needed)} at least, and crews "
            f"are there for {lasting(most)} without a break: nobody is there {' or '.join(gaps)}"
        )
    elif len(stated) > 1 and len(gaps) == 1 and gone <= _GAP:
        told = f"crews watch {treatment.name} in turn, and nobody is there {gaps[0]}, for {lasting(gone)}"
    else:
        return
    case.add(
        RULE.found(
            told,
            treatment.entry.place("name"),
            address=treatment.address,
            others=[Label(job.crews[0].place(), "the first crew is stated here")],
            basis=RULE.basis,
        )
    )
