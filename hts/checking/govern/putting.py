"""One demand of a procedure, put to the entries of a job that it is about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from copy import copy
from typing import TYPE_CHECKING, Literal

from hts.base.text import Span
from hts.checking.govern.applying import holds
from hts.checking.govern.instances import Instance, Root, below, home, roots
from hts.checking.govern.meets import Facts, Fit, fit
from hts.checking.govern.sources import Authority
from hts.language.model.joint import CONTROLS, MONITORS, Joint
from hts.language.model.orientation import Orientation, opposite
from hts.language.vocabulary.cycle import Bake, Cycle
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.demand_lines import Allows, DemandLine, Forbids
from hts.language.vocabulary.demanded import Demanded, Every, Target, Test
from hts.language.vocabulary.equipment import Controller, PowerSource, Recorder
from hts.language.vocabulary.heating import Heating
from hts.language.vocabulary.job import Waive
from hts.language.vocabulary.joint import Joint as JointEntry
from hts.language.vocabulary.paths import title
from hts.language.vocabulary.preheat import Preheat
from hts.language.vocabulary.thermocouples import BAND_EDGES, Thermocouple, Thermocouples
from hts.language.vocabulary.types import Reference, To
from hts.language.vocabulary.work import Work

if TYPE_CHECKING:
    from hts.checking.govern.case import Case

Verdict = Literal["met", "not met", "undecided", "checked"]
_EQUIPMENT = (Controller, Recorder, PowerSource)
#: What comes of a demand: the verdict, the entries meant, where to look, and why in words.
Found = tuple[Verdict, Sequence[Span], Span, str]


def holding(line: DemandLine | Forbids, sides: Facts) -> tuple[Facts, bool]:
    """The facts of the sides it is for, and whether there is a side nobody can tell about."""
    if line.when is None:
        return sides, False
    held = [holds(line.when.text, side) for side in sides]
    return (
        [side for side, held_here in zip(sides, held, strict=True) if held_here],
        None in held,
    )


class Putting:
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

    def required(self) -> Found | None:
        """None where the joint has nothing that the demand could be about."""
        if self.demanded.outcome:
            return self._outcome()
        parts = [
            [o for target in each.targets for o in self._with(each)._of_target(target)]
            for each in self.demanded.each()
        ]
        for verdict in ("not met", "undecided"):
            # Of each value that is asked for, the first place that lacks it.
            short = [o for o in (_first(part, verdict) for part in parts) if o is not None]
            if short:
                return together(short)
        found = [outcome for part in parts for outcome in part]
        where = [span for each in found for span in each[1]]
        return ("met", where, where[0] if where else self.at, "") if found else None

    def _outcome(self) -> Found | None:
        """What is worked out of a treatment has rules of its own, which alone ask for the work it
        takes; here it is only told that they do."""
        treated = any(
            roots(self.case.spec, self.joint, target.root) for target in self.demanded.targets
        )
        why = "by what is predicted; a shortfall stands among the open findings"
        return ("checked", (), self.at, why) if treated else None

    def _with(self, demanded: Demanded) -> Putting:
        made = copy(self)
        made.demanded = demanded
        return made

    def forbidden(self, line: Forbids, authority: Authority) -> Found | None:
        """The entries that say what is forbidden, but for those a line that allows sets free."""
        if self.demanded.each_side or _every(self.demanded) is not None:
            whole = self.required()
            if whole is not None and whole[0] == "met" and whole[1]:
                return "not met", whole[1], whole[2], "it is there"
            return whole if whole is not None and whole[0] == "undecided" else None
        undecided: Found | None = None
        looked: list[Span] = []
        there: list[Span] = []
        for instance in self._instances():
            looked.append(self._place(instance))
            fits = [self._fit(test, instance, exactly=True) for test in self.demanded.tests]
            if all(each.met for each in fits) and not self._allowed(instance, authority):
                there.append(self._place(instance))
                if len(there) < max(self.demanded.number, self.demanded.in_all):
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
        facts, _ = holding(line, self.facts)
        tests = line.what.tests
        return bool(facts) and all(self._fit(test, instance, exactly=True).met for test in tests)

    def _instances(self) -> list[Instance]:
        return [
            instance
            for target in self.demanded.targets
            for root in roots(self.case.spec, self.joint, target.root)
            for instance in below(root, target)
        ]

    def _of_target(self, target: Target) -> Iterator[Found]:
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
            concerned = self._concerned(target)
            if not concerned and (target.entry is Thermocouple or not below(root, target)):
                continue
            yield from self._of_root(target, root)

    def _of_root(self, target: Target, root: Root) -> Iterator[Found]:
        """One outcome, or of things that have to be there for each of others, one for each."""
        test = _every(self.demanded)
        if test is None:
            yield self._of_roots(target, [root])
            return
        for name, place in self._members(test):
            single = test._replace(
                among=(Reference("", name, 0, 0),),
                words=f"{' '.join(test.field.words)} {name}",
            )
            tests = tuple(single if each is test else each for each in self.demanded.tests)
            part = self._with(self.demanded._replace(tests=tests, meant=test.field.name))
            verdict, where, at, why = part._of_roots(target, [root])
            # What is missing is missing beside the one it is for.
            yield verdict, where, at if where else place, why

    def _members(self, test: Test) -> Iterator[tuple[str, Span]]:
        """The things that one is asked for each of, by name and place. A spare needs no other."""
        every = test.among[0]
        if self.joint is None:
            return
        if isinstance(test.field.type, To) and test.field.type.what == "zone":
            yield from ((zone.name, zone.place("name")) for zone in self.joint.zones)
            return
        for tc in self.joint.thermocouples:
            if tc.duty == every.says or (not every.says and tc.duty in (CONTROLS, MONITORS)):
                yield tc.tag, tc.place("name")

    def _of_edges_in_furnace(self, joint: Joint) -> bool:
        """Whether edges of bands are to be monitored: what is heated whole has none."""
        heating = joint.entry.heating
        if heating is None or heating.method != "furnace":
            return False
        tests = (t for t in self.demanded.tests if t.field.name == "monitors")
        return any(place in BAND_EDGES for test in tests for place in test.among)

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
        if target.entry is Thermocouple and (not treated or self._of_edges_in_furnace(joint)):
            return False
        if target.root in (Preheat, Bake, Cycle):
            return bool(roots(self.case.spec, joint, target.root))
        if target.root is PowerSource:
            return treated
        if target.root in _EQUIPMENT or issubclass(target.root, Work):
            return treated or joint.preheat is not None
        inner = target.chain[0].entry if target.chain else None
        return treated or inner not in (Heating, Thermocouples)

    def _of_roots(self, target: Target, found: Sequence[Root]) -> Found:
        instances = [instance for root in found for instance in below(root, target)]
        last = home(found[-1], target)
        if not self.demanded.each_side:
            return self._among(target, instances, last)
        where: list[Span] = []
        for sign, words in _sides(found[0]):
            there = [each for each in instances if each.side and each.side[1] == sign]
            outcome = self._among(target, there, last)
            if outcome[0] != "met":
                return *outcome[:3], f"{words} {outcome[3]}"
            where += outcome[1]
        return "met", where, where[0] if where else _named(last), ""

    def _among(self, target: Target, instances: list[Instance], last: Entry) -> Found:
        """What comes of the demand among some entries; ``last`` is where they would stand."""
        tests, telling = self.demanded.tests, self.demanded.telling
        meant = [i for i in instances if all(self._fit(t, i).met is not False for t in telling)]
        if len(meant) < self.demanded.number:
            number = self.demanded.number
            words = _words(target)
            if number > 1:
                why = (
                    f"there {'is' if len(meant) == 1 else 'are'} {len(meant) or 'none'} of {number}"
                )
            elif instances and telling:
                # What has a name of its own is called by what it is.
                why = f"no `{words}`" if target.entry.words else f"no {title(target.entry)}"
                why += f" says `{', '.join(test.words for test in telling)}`"
            else:
                why = f"nothing says `{words}`"
            return "not met", (), _named(last), why
        most = self.demanded.most
        if most is not None:
            fitting = [i for i in meant if all(self._fit(test, i).met for test in tests)]
            if len(fitting) > most:
                places = [self._place(i) for i in fitting]
                return "not met", places, places[most], f"there are {len(fitting)}, not {most}"
            if self.demanded.number == 0:
                places = [self._place(i) for i in fitting]
                return "met", places, places[0] if places else _named(last), ""
        for instance in meant:
            for test in tests:
                fitted = self._fit(test, instance)
                if fitted.met is not True:
                    verdict: Verdict = "undecided" if fitted.met is None else "not met"
                    place = self._place(instance, test.field.name)
                    return verdict, [place], place, _told(target, instance, fitted.why)
        first = tests[-1].field.name if tests else ""
        return "met", [self._place(i, first) for i in meant], self._place(meant[0], first), ""

    def _fit(self, test: Test, instance: Instance, exactly: bool = False) -> Fit:
        limits = self.case.limits(self.joint, instance.root.treatment) if self.joint else None
        return fit(test, instance, limits, self.facts, self.case.run_out, exactly)

    def _place(self, instance: Instance, field: str = "") -> Span:
        worked_out = type(instance.entry).worked_out.get(field)
        if worked_out is not None:
            field = next((name for name in worked_out.of if instance.entry.says(name)), "")
        return instance.entry.place(field)


def _words(target: Target) -> str:
    """How a job begins the entry: `heating insulation`."""
    steps = [title(target.root), *(title(f.entry) for f in target.chain if f.entry is not None)]
    return " ".join(steps[1:] or steps)


def _first(part: Iterable[Found], verdict: str) -> Found | None:
    return next((each for each in part if each[0] == verdict), None)


def together(short: Sequence[Found]) -> Found:
    """Several shortfalls of one demand as one, in the place of the first."""
    whys = dict.fromkeys(each[3] for each in short)
    where = [span for each in short for span in each[1]]
    return short[0][0], where, short[0][2], "; ".join(whys)


def _named(entry: Entry) -> Span:
    """Where an entry is told from others: its name, or its words."""
    return entry.place(next((name for name in ("name", "names") if entry.says(name)), ""))


def _every(demanded: Demanded) -> Test | None:
    """The test that asks for one of each of several things."""
    return next((t for t in demanded.tests if any(isinstance(v, Every) for v in t.among)), None)


def _sides(root: Root) -> list[tuple[int, str]]:
    """The two sides of the weld of a joint, each with the word the text has for it."""
    assert root.joint is not None
    words: dict[int, str] = {}
    orientation = Orientation(root.joint.entry)
    for tc in root.joint.thermocouples:
        if tc.entry.offset is not None:
            side = tc.entry.offset.side
            _, sign = orientation.along(side)
            words.setdefault(sign, side)
            words.setdefault(-sign, opposite(side))
    return [(sign, words.get(sign, "on a side of the weld")) for sign in (-1, 1)]


def _told(target: Target, instance: Instance, why: str) -> str:
    """A shortfall by the name of the thing, where there are several such things."""
    name = getattr(instance.entry, "name", None)
    if target.chain and target.chain[-1].many and isinstance(name, str) and why.startswith("it "):
        return f"{name} {why.removeprefix('it ')}"
    return why
