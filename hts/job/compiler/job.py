"""The compiled job: document, and for each joint its widths, limits, programs and thermocouples."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple, TypeVar

from hts.base.findings import Finding
from hts.base.quantities import Quantity
from hts.checking.govern import Authority, JointLimits
from hts.checking.govern.case import Case
from hts.job.compiler.assumed import INTERVAL
from hts.job.compiler.bands import Band, bands
from hts.job.compiler.changes import Changes
from hts.job.compiler.demanded import ProcedureDemand, procedure_demands
from hts.job.compiler.derivations import Derivation, Undecided, derivations, undecided
from hts.job.compiler.document import Document, document
from hts.job.compiler.errors import CannotCompile
from hts.job.compiler.preheat import of_preheat
from hts.job.compiler.program import Program, of_treatment
from hts.job.compiler.proof import Proof, proof
from hts.job.compiler.schedule import Point, schedule
from hts.job.compiler.tags import Tag, Wire, tags, wire
from hts.job.compiler.units import Units, units_of
from hts.language.model import Spec
from hts.language.model.joint import Joint
from hts.language.vocabulary.cycle import Bake

T = TypeVar("T")

#: When a bake begins that is over before the joint is preheated and welded.
_BEFORE_WELDING = ("before excavation", "after excavation")


class Run(NamedTuple):
    """A program with what follows from it: schedule, channels and the proof of its loops."""

    program: Program
    points: tuple[Point, ...]
    tags: tuple[Tag, ...]
    proof: Proof | None


class JointSheet(NamedTuple):
    """Everything about one joint; `runs` are in the order they are done."""

    joint: Joint
    limits: JointLimits
    bands: tuple[Band, ...]
    derived: tuple[Derivation, ...]
    undecided: tuple[Undecided, ...]
    wire: Wire | None
    runs: tuple[Run, ...]

    @property
    def hottest(self) -> Run | None:
        """The run whose hold is hottest, for which the tag sheet is written."""
        held = [run for run in self.runs if run.proof is not None]
        return max(held, key=lambda run: run.proof.at.value if run.proof else 0, default=None)

    @property
    def tags(self) -> tuple[Tag, ...]:
        """The thermocouples with the channels of the hottest run."""
        run = self.hottest or (self.runs[-1] if self.runs else None)
        return run.tags if run is not None else tuple(tags(self.joint))


class Job(NamedTuple):
    """A whole specification, compiled; with `changes` where it was asked what they are, and the
    `warnings` a check found that nobody mended, each as one line. `demands` are those of the
    procedures on entries of the job, met or not."""

    spec: Spec
    document: Document
    units: Units
    every: Quantity
    authorities: tuple[Authority, ...]
    joints: tuple[JointSheet, ...]
    demands: tuple[ProcedureDemand, ...] = ()
    changes: Changes | None = None
    warnings: tuple[str, ...] = ()

    def __repr__(self) -> str:
        about = self.document
        joints = ", ".join(sheet.joint.name for sheet in self.joints)
        return f"<Job {about.number} revision {about.revision}: {joints}>"


def compile_spec(spec: Spec, every: Quantity = INTERVAL) -> Job:
    """The compiled job of a specification that has been checked and found without error.

    `every` is the time between two lines of the schedule. Raises CannotCompile with all the
    values that nothing gives.
    """
    case = Case(spec)
    units = units_of(spec)
    reasons: list[str] = []
    named = document(spec, case.authorities)
    sheets = [_sheet(case, joint, units, every, reasons) for joint in case.joints()]
    if not sheets:
        reasons.append("there is no joint to compile")
    if reasons:
        raise CannotCompile(reasons)
    return Job(
        spec,
        named,
        units,
        every,
        tuple(case.authorities),
        tuple(sheet for sheet in sheets if sheet is not None),
        procedure_demands(case),
    )


def with_warnings(job: Job, findings: Iterable[Finding]) -> Job:
    """The job with the warnings a check found of it, for its papers."""
    open_ones = (f"{one.kind.name}: {one.message}" for one in findings if one.severity == "warning")
    return job._replace(warnings=tuple(dict.fromkeys(open_ones)))


def _sheet(
    case: Case, joint: Joint, units: Units, every: Quantity, reasons: list[str]
) -> JointSheet | None:
    limits = case.limits(joint)
    first: list[Program | None] = []
    then: list[Program | None] = []
    preheat = joint.preheat
    if preheat is not None:
        then.append(_try(lambda: of_preheat(joint, preheat, limits, units), reasons))
    for treatment in case.treatments(joint):
        own = case.limits(joint, treatment)
        # A cycle that the code does not require may have no steps.
        if treatment.entry.segments:
            made = _try(lambda t=treatment, o=own: of_treatment(t, o, units), reasons)  # type: ignore[misc]
            entry = treatment.entry
            early = isinstance(entry, Bake) and entry.begins in _BEFORE_WELDING
            (first if early else then).append(made)
    widths = _try(lambda: bands(joint, limits), reasons)
    runs = [
        _try(lambda p=program: _run(joint, p, every), reasons)  # type: ignore[misc]
        for program in (*first, *then)
        if program is not None
    ]
    if widths is None:
        return None
    return JointSheet(
        joint,
        limits,
        tuple(widths),
        tuple(derivations(limits, ("joint",))),
        tuple(undecided(limits, ("joint",))),
        wire(joint),
        tuple(run for run in runs if run is not None),
    )


def _run(joint: Joint, program: Program, every: Quantity) -> Run:
    return Run(
        program,
        tuple(schedule(program, every)),
        tuple(tags(joint, program.controller, program.recorder)),
        proof(joint, program),
    )


def _try(make: Callable[[], T], reasons: list[str]) -> T | None:
    """What `make` gives; its reasons are gathered, so that all gaps are told at once."""
    try:
        return make()
    except CannotCompile as error:
        reasons.extend(error.reasons)
        return None
