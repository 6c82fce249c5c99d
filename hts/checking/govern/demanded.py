"""What procedures demand of the entries of a job, put to a joint: met and where, or not and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from copy import copy
from typing import TYPE_CHECKING, Literal, NamedTuple

from hts.base.text import Span
from hts.checking.govern.applying import applies, applying, holds, known
from hts.checking.govern.instances import Instance, Root, below, roots
from hts.checking.govern.meets import Facts, Fit, fit
from hts.checking.govern.sources import Authority
from hts.language.model.joint import Joint
from hts.language.vocabulary.cycle import Bake, Cycle
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.demand_lines import Allows, DemandLine, Forbids, Requires
from hts.language.vocabulary.demanded import Demanded, Target, Test
from hts.language.vocabulary.equipment import Controller, PowerSource, Recorder
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.heating import Heating
from hts.language.vocabulary.job import Job, Waive
from hts.language.vocabulary.joint import Joint as JointEntry
from hts.language.vocabulary.paths import title
from hts.language.vocabulary.preheat import Preheat
from hts.language.vocabulary.thermocouples import Thermocouples
from hts.language.vocabulary.work import Work
from hts.syntax.formula import Fact

if TYPE_CHECKING:
    from hts.checking.govern.case import Case

Verdict = Literal["met", "not met", "undecided"]
_OF_THE_JOB = (Job, Waive)
_EQUIPMENT = (Controller, Recorder, PowerSource)


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
        return type(self.line).words[0]

    @property
    def address(self) -> str:
        return self.joint.address if self.joint is not None else ""


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


def lines_with_rules(case: Case, joint: Joint) -> Iterator[tuple[Authority, Span]]:
    """The demands of procedures for a joint that rules of their own judge, and their places."""
    for authority in case.authorities:
        procedure = authority.procedure
        if procedure is None or not applies(procedure, case.limits(joint)):
            continue
        sides = list(known(case.limits(joint)).values()) or [{}]
        lines: list[tuple[Entry, FormulaText | None]] = []
        lines += [(line, line.when) for line in procedure.controls]
        lines += [(line, line.when) for line in procedure.monitors]
        lines += [(line, line.when) for line in procedure.spares]
        lines += [(line, line.when) for line in procedure.guard_bands]
        for line, when in lines:
            if when is None or any(holds(when.text, side) is not False for side in sides):
                yield authority, line.place()
        for field in ("interval", "calibration"):
            if getattr(procedure, field) is not None:
                yield authority, procedure.place(field)


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
    facts, open_ = _holding(line, sides)
    at = joint.place("names") if joint is not None else _job_place(case)
    if not facts and not open_:
        return
    if not facts:
        why = "its condition hangs on facts that are not known"
        yield Outcome(authority, line, joint, "undecided", (), at, why)
        return
    putting = _Putting(case, authority, line.what, joint, facts, at)
    found = putting.forbidden(line, authority) if isinstance(line, Forbids) else putting.required()
    if isinstance(line, Requires) and line.otherwise is not None and found and found[0] != "met":
        other = _Putting(case, authority, line.otherwise, joint, facts, at).required()
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


def _holding(line: DemandLine | Forbids, sides: Facts) -> tuple[Facts, bool]:
    """The facts of the sides it is for, and whether there is a side nobody can tell about."""
    if line.when is None:
        return sides, False
    held = [holds(line.when.text, side) for side in sides]
    return (
        [side for side, held_here in zip(sides, held, strict=True) if held_here],
        None in held,
    )


_Found = tuple[Verdict, Sequence[Span], Span, str]


class _Putting:
    """One demand, put to all entries of a job that it is about."""

    def __init__(
        self,
        case: Case,
        authority: Authority,
        demanded: Demanded,
        joint: Joint | None,
        facts: Facts,
        at: Span,
    ) -> None:
        self.case = case
        self.demanded = demanded
        self.joint = joint
        self.facts = facts
        self.at = at

    def required(self) -> _Found | None:
        """None where the joint has nothing that the demand could be about."""
        found = [
            outcome
            for demanded in self.demanded.each()
            for target in demanded.targets
            for outcome in self._with(demanded)._of_target(target)
        ]
        for verdict in ("not met", "undecided"):
            short = next((each for each in found if each[0] == verdict), None)
            if short is not None:
                return short
        where = [span for each in found for span in each[1]]
        return ("met", where, where[0] if where else self.at, "") if found else None

    def _with(self, demanded: Demanded) -> _Putting:
        made = copy(self)
        made.demanded = demanded
        return made

    def forbidden(self, line: Forbids, authority: Authority) -> _Found | None:
        """The entries that say what is forbidden, but for those a line that allows sets free."""
        undecided: _Found | None = None
        looked: list[Span] = []
        there: list[Span] = []
        for instance in self._instances():
            looked.append(self._place(instance))
            fits = [self._fit(test, instance) for test in self.demanded.tests]
            if all(each.met for each in fits) and not self._allowed(instance, authority):
                there.append(self._place(instance))
                if len(there) < self.demanded.number:
                    continue
                why = "it is there" if len(there) == 1 else f"there are {len(there)}"
                return "not met", there, there[0], why
            if all(each.met is not False for each in fits) and any(e.met is None for e in fits):
                why = next(each.why for each in fits if each.met is None)
                undecided = "undecided", [self._place(instance)], self._place(instance), why
        return undecided or ("met", looked, self.at, "")

    def _allowed(self, instance: Instance, authority: Authority) -> bool:
        procedure = authority.procedure
        assert procedure is not None
        return any(
            self._frees(line, instance) for line in procedure.allows if line.what is not None
        )

    def _frees(self, line: Allows, instance: Instance) -> bool:
        assert line.what is not None
        if all(target not in self.demanded.targets for target in line.what.targets):
            return False
        facts, _ = _holding(line, self.facts)
        return bool(facts) and all(self._fit(test, instance).met for test in line.what.tests)

    def _instances(self) -> list[Instance]:
        return [
            instance
            for target in self.demanded.targets
            for root in roots(self.case.spec, self.joint, target.root)
            for instance in below(root, target)
        ]

    def _of_target(self, target: Target) -> Iterator[_Found]:
        """One outcome for each root entry; work of one stage is one list however it is split."""
        found = roots(self.case.spec, self.joint, target.root)
        whole = not target.chain and not self.demanded.tests and self.demanded.number > 0
        if whole and target.root in (Preheat, Bake, Cycle) and not found:
            if self._asked_for(target.root):
                yield "not met", (), self.at, "there is none"
            return
        if not found:
            if self._concerned(target) and self.demanded.number > 0:
                yield "not met", (), self.at, f"nothing says `{_words(target)}`"
            return
        if issubclass(target.root, (Work, Waive)):
            yield self._of_roots(target, found)
            return
        for root in found:
            if not self._concerned(target) and not below(root, target):
                continue
            yield self._of_roots(target, [root])

    def _asked_for(self, root: type[Entry]) -> bool:
        """Whether a joint can be asked to have such a treatment in this job: one that only
        preheats, or only treats, may leave the rest to another job."""
        joint = self.joint
        # One that could not be read whole may be the one for this joint.
        if any(not bake.sound for bake in self.case.spec.file.bakes):
            return False
        if root is Bake and joint is not None:
            return joint.preheat is not None and bool(joint.cycles)
        return True

    def _concerned(self, target: Target) -> bool:
        """Whether the joint is one that has to have what the target stands for."""
        joint = self.joint
        if joint is None or (not target.chain and target.root is JointEntry):
            return True
        treated = bool(joint.cycles or joint.bakes)
        if target.root in (Preheat, Bake, Cycle):
            return bool(roots(self.case.spec, joint, target.root))
        if target.root is PowerSource:
            return treated
        if target.root in _EQUIPMENT or issubclass(target.root, Work):
            return treated or joint.preheat is not None
        inner = target.chain[0].entry if target.chain else None
        return treated or inner not in (Heating, Thermocouples)

    def _of_roots(self, target: Target, found: Sequence[Root]) -> _Found:
        instances = [instance for root in found for instance in below(root, target)]
        tests, telling = self.demanded.tests, self.demanded.telling
        meant = [i for i in instances if all(self._fit(t, i).met is not False for t in telling)]
        last = found[-1].entry
        if len(meant) < self.demanded.number:
            number = self.demanded.number
            words = _words(target)
            if number > 1:
                why = (
                    f"there {'is' if len(meant) == 1 else 'are'} {len(meant) or 'none'} of {number}"
                )
            elif instances and telling:
                why = f"no `{words}` says `{', '.join(test.words for test in telling)}`"
            else:
                why = f"nothing says `{words}`"
            return "not met", (), last.place(), why
        most = self.demanded.most
        if most is not None:
            fitting = [i for i in meant if all(self._fit(test, i).met for test in tests)]
            if len(fitting) > most:
                places = [self._place(i) for i in fitting]
                return "not met", places, places[most], f"there are {len(fitting)}, not {most}"
            if self.demanded.number == 0:
                places = [self._place(i) for i in fitting]
                return "met", places, places[0] if places else last.place(), ""
        for instance in meant:
            for test in tests:
                fitted = self._fit(test, instance)
                if fitted.met is not True:
                    verdict: Verdict = "undecided" if fitted.met is None else "not met"
                    place = self._place(instance, test.field.name)
                    return verdict, [place], place, fitted.why
        first = tests[-1].field.name if tests else ""
        return "met", [self._place(i, first) for i in meant], self._place(meant[0], first), ""

    def _fit(self, test: Test, instance: Instance) -> Fit:
        limits = self.case.limits(self.joint, instance.root.treatment) if self.joint else None
        return fit(test, instance, limits, self.facts)

    def _place(self, instance: Instance, field: str = "") -> Span:
        return instance.entry.place(field)


def _words(target: Target) -> str:
    """How a job begins the entry: `heating insulation`."""
    steps = [title(target.root), *(title(f.entry) for f in target.chain if f.entry is not None)]
    return " ".join(steps[1:] or steps)
