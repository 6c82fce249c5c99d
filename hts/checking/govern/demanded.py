"""What procedures demand of the entries of a job, put to a joint: met and where, or not and why."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from hts.base.text import Span
from hts.checking.govern.applying import applies, applying, known
from hts.checking.govern.meets import Facts
from hts.checking.govern.putting import Putting, Verdict, holding
from hts.checking.govern.sources import Authority
from hts.language.model.joint import Joint
from hts.language.vocabulary.demand_lines import DemandLine, Forbids, Requires
from hts.language.vocabulary.demanded import Demanded
from hts.language.vocabulary.job import Job, Waive
from hts.syntax.formula import Fact

if TYPE_CHECKING:
    from hts.checking.govern.case import Case

_OF_THE_JOB = (Job, Waive)


class Outcome(NamedTuple):
    """One demand put to one joint, or to the job (``joint`` is None).

    ``where`` are the entries that meet it, or that fall short; ``at`` is where to look first and
    ``why`` says in words what is lacking.
    """

    authority: Authority
    line: DemandLine | Forbids
    joint: Joint | None
    verdict: Verdict
    where: tuple[Span, ...]
    at: Span
    why: str = ""

    @property
    def what(self) -> Demanded:
        assert self.line.what is not None
        return self.line.what

    @property
    def verb(self) -> str:
        """What the line does; a limit on a figure requires it."""
        return (type(self.line).words or Requires.words)[0]

    @property
    def said(self) -> str:
        """The demand as the line has it."""
        return " ".join((*type(self.line).words, self.what.text))

    @property
    def address(self) -> str:
        """What `hts why` and a waiver call it: `W12/recorder-interval-at-most-60-s`."""
        of = self.joint.address if self.joint is not None else "job"
        return f"{of}/{'-'.join(self.what.text.split()[:6])}"


def of_joint(case: Case, joint: Joint) -> list[Outcome]:
    """Every demand that is for a joint, in the order of the procedures."""
    if joint.name not in case.outcomes:
        case.outcomes[joint.name] = list(_of_joint(case, joint))
    return case.outcomes[joint.name]


def _of_joint(case: Case, joint: Joint) -> Iterator[Outcome]:
    sides: list[dict[str, Fact]] | None = None
    for authority, lines in _lines(case):
        own = [line for line in lines if not _of_document(line)]
        if not own or authority.procedure is None:
            continue
        if sides is None:
            sides = list(known(case.limits(joint)).values()) or [{}]
        is_for = applying(authority.procedure, sides)
        if is_for is None:
            # Told once: the lines of a procedure that may not be for the joint hang on the same.
            why = "whether the procedure is for the joint hangs on facts that are not known"
            yield Outcome(authority, own[0], joint, "undecided", (), joint.place("names"), why)
        elif is_for:
            for line in own:
                yield from _put(case, authority, line, joint, sides)


def of_job(case: Case) -> list[Outcome]:
    """Every demand on the document itself, once."""
    if "" not in case.outcomes:
        case.outcomes[""] = _of_job(case)
    return case.outcomes[""]


def _of_job(case: Case) -> list[Outcome]:
    found = []
    for authority, lines in _lines(case):
        own = [line for line in lines if _of_document(line)]
        if not own or case.spec.file.job is None or authority.procedure is None:
            continue
        put: list[Joint | None] = [
            joint for joint in case.joints() if applies(authority.procedure, case.limits(joint))
        ]
        if not put and case.spec.joints:
            continue
        for line in own:
            outcomes: list[Outcome] = []
            for joint in put or [None]:
                sides = list(known(case.limits(joint)).values()) if joint is not None else [{}]
                outcomes += _put(case, authority, line, joint, sides)
            found += [outcome._replace(joint=None) for outcome in outcomes[:1]]
    return found


def _of_document(line: DemandLine | Forbids) -> bool:
    return line.what is not None and line.what.targets[0].root in _OF_THE_JOB


def _lines(case: Case) -> Iterator[tuple[Authority, list[DemandLine | Forbids]]]:
    """The lines of each procedure that demand something readable."""
    for authority in case.authorities:
        procedure = authority.procedure
        if procedure is not None:
            lines: list[DemandLine | Forbids] = [*procedure.requires, *procedure.prefers]
            lines += procedure.forbids
            yield authority, [line for line in lines if line.what is not None and line.sound]


def _put(
    case: Case,
    authority: Authority,
    line: DemandLine | Forbids,
    joint: Joint | None,
    sides: Facts,
) -> Iterator[Outcome]:
    """What comes of one demand; nothing where it is not for this joint."""
    assert line.what is not None
    facts, open_ = holding(line, sides)
    at = joint.place("names") if joint is not None else _job_place(case)
    if not facts and not open_:
        return
    if not facts:
        why = "its condition hangs on facts that are not known"
        yield Outcome(authority, line, joint, "undecided", (), at, why)
        return
    putting = Putting(case, authority, line.what, joint, facts, at)
    found = putting.forbidden(line, authority) if isinstance(line, Forbids) else putting.required()
    if isinstance(line, Requires) and line.otherwise is not None and found and found[0] != "met":
        other = Putting(case, authority, line.otherwise, joint, facts, at).required()
        if other is not None:
            why = f"{found[3]}, and in its place {other[3]}"
            found = other if other[0] == "met" else (*found[:3], why)
    if found is not None:
        verdict, where, place, why = found
        yield Outcome(authority, line, joint, verdict, tuple(where), place, why)


def _job_place(case: Case) -> Span:
    job = case.spec.file.job
    assert job is not None
    return job.place()
