"""Predictions of the treatments of a specification, whole and as a check needs them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache, partial
from typing import TypeVar

from hts.base.arguments import NotCovered
from hts.checking.checker.processes import pool_of
from hts.checking.govern.case import Case
from hts.checking.govern.foreseen import Answer, Foreseen, ShortZone, Unforeseen
from hts.language.model.joint import Treatment
from hts.predict.building import Builder
from hts.predict.course import Course, follow
from hts.predict.demands import JOB, Demands
from hts.predict.outlook import HOLDS, Outlook, Physics, allowed_of, outlook_of, physics_of
from hts.predict.report import place_words
from hts.predict.scatter import SAMPLES
from hts.predict.setting import NotPredicted, Setting, setting_of
from hts.predict.widths import Width, narrowest
from hts.science.field.state import Field

#: Samples of a check: enough for its 5 % and 95 %, in less time.
_SAMPLES = 60
#: Editors check the same joint again and again, and pages show it after each save.
_KEPT = 8
#: Different predictions for each process, at least: to begin one takes time, too.
_PAYS = 2
T = TypeVar("T")


def treatments_of(case: Case, address: str = "") -> list[Treatment]:
    """What can be asked to be predicted; with an address, of this joint or treatment alone."""
    return [
        treatment
        for joint in case.joints()
        for treatment in case.treatments(joint)
        if treatment.entry.segments and address in ("", joint.name, treatment.address)
    ]


def foresee(case: Case, treatment: Treatment, spread: float | None = None) -> Outlook | str:
    """The outlook of one treatment, or in words why there is none; `spread` as `outlook_of`."""
    return foresee_all(case, [treatment], spread)[0]


def foresee_all(
    case: Case,
    treatments: Sequence[Treatment],
    spread: float | None = None,
    jobs: int = 1,
    tell: Callable[[int, int], None] | None = None,
) -> list[Outlook | str]:
    """The same of many, in their order. What is alike in all that the physics rests on is worked
    out once, by `jobs` processes; `tell` hears how many different ones are done, and of how many.
    Raises ChildProcessError where a process was killed, as for want of memory."""
    found: dict[int, Outlook | str] = {}
    settings: dict[int, Setting] = {}
    alike: dict[_Unit, list[int]] = {}
    for number, treatment in enumerate(treatments):
        setting = _tried(partial(setting_of, case, treatment))
        if isinstance(setting, str):
            found[number] = setting
            continue
        settings[number] = setting
        alike.setdefault((_bare(setting), allowed_of(setting, spread)), []).append(number)
    units = list(alike)
    for done, (unit, worked) in enumerate(zip(units, _all_worked(units, jobs), strict=True), 1):
        for number in alike[unit]:
            found[number] = worked if isinstance(worked, str) else _laid_out(
                settings[number], worked, spread
            )  # fmt: skip
        if tell is not None:
            tell(done, len(units))
    return [found[number] for number in range(len(treatments))]


#: What one prediction takes its time for: the physics, and widths for so many K below the setpoint.
_Unit = tuple[Setting, float]
_Worked = tuple[Physics, tuple[Width, ...]]


def _all_worked(units: Sequence[_Unit], jobs: int) -> Iterator[_Worked | str]:
    """Each unit worked out, in order; by processes of their own where that pays."""
    jobs = min(jobs, len(units) // _PAYS)
    if jobs < 2:
        yield from map(_worked, units)
        return
    with pool_of(jobs, "predicting") as pool:
        yield from pool.map(_worked, units)


def _worked(unit: _Unit) -> _Worked | str:
    bare, allowed = unit
    return _tried(lambda: (_kept(bare, SAMPLES), _widths(bare, allowed)))


def _laid_out(setting: Setting, worked: _Worked, spread: float | None) -> Outlook | str:
    physics, widths = worked
    return _tried(
        lambda: outlook_of(setting, physics, widths=False, spread=spread)._replace(widths=widths)
    )


def _tried(work: Callable[[], T]) -> T | str:
    """What `work` gives, or in words why it gives nothing."""
    try:
        return work()
    except NotPredicted as reason:
        return str(reason)
    except NotCovered as error:
        return f"{error}"
    except (ArithmeticError, ValueError) as error:
        return f"the model does not settle: {error}"


def is_same(one: Outlook, other: Outlook) -> bool:
    """Whether two predictions say the same of two joints, whatever these are called."""
    as_one = other.setting._replace(joint=one.setting.joint, treatment=one.setting.treatment)
    return one.setting == as_one


def foreseen(case: Case, treatment: Treatment) -> Foreseen | Unforeseen:
    """The same as a check needs it, from fewer samples."""
    try:
        setting = setting_of(case, treatment)
        bare = _bare(setting)
        outlook = outlook_of(setting, _kept(bare, _SAMPLES), widths=False)
        if outlook.share < setting.demands.confidence:
            outlook = outlook._replace(widths=_widths(bare, outlook.allowed))
    except NotPredicted as reason:
        return Unforeseen(str(reason))
    except NotCovered as error:
        return Unforeseen(f"{error}")
    except (ArithmeticError, ValueError) as error:
        return Unforeseen(f"the model does not settle: {error}")
    return _told(outlook)


def _bare(setting: Setting) -> Setting:
    """What the physics rests on: names and demands bear on none of it."""
    numbers = {couple.tag: str(number) for number, couple in enumerate(setting.couples)}
    return setting._replace(
        joint="", treatment="", demands=Demands(()), assumed=(), gap=0.0, sized=None,
        couples=tuple(one._replace(tag=numbers[one.tag]) for one in setting.couples),
        zones=tuple(one._replace(follows=numbers.get(one.follows, "")) for one in setting.zones),
        critical=None, critical_of="", bore_from="", up="", leftward=False,
    )  # fmt: skip


@lru_cache(maxsize=_KEPT)
def _kept(setting: Setting, samples: int) -> Physics:
    return physics_of(setting, samples, _followed(setting))


@lru_cache(maxsize=_KEPT)
def _followed(setting: Setting) -> Course:
    """A check and a page follow the same treatment, and vary it each by its own samples."""
    return follow(setting, Builder(setting))


@lru_cache(maxsize=_KEPT)
def _widths(setting: Setting, allowed: float) -> tuple[Width, ...]:
    return narrowest(setting, allowed) if allowed > 0.0 else ()


def _told(outlook: Outlook) -> Foreseen:
    setting, last = outlook.setting, outlook.hold_end
    field = outlook.course.fields[outlook.course.hold_end]
    mirrored = field.mesh.mirrored
    own = next((w for w in outlook.widths if w.state == setting.bore.name), None)
    lined = next((w for w in outlook.widths if w.state == "lined"), None)
    return Foreseen(
        answers=tuple(
            Answer(a.demanded.what, a.asked, a.demanded.by, a.demanded.at, a.predicted,
                   a.verdict == HOLDS, a.demanded.by == JOB)
            for a in outlook.answers
        ),
        window=outlook.window,
        target=setting.target,
        lowest=(last.lowest.stated, last.lowest.low, last.lowest.high),
        coldest=place_words(last.coldest, mirrored),
        highest=(last.highest.stated, last.highest.low, last.highest.high),
        hottest=place_words(last.hottest, mirrored),
        share=outlook.share,
        wanted=setting.demands.confidence,
        minutes=(outlook.held / 60.0, outlook.hold / 60.0),
        cure=1000.0 * own.band if own is not None and own.band is not None else None,
        left=own.left if own is not None else 0.0,
        heated=2000.0 * setting.heated,
        first=outlook.scatter.shifts[0].what if outlook.scatter.shifts else "",
        lined=lined is not None and lined.band is not None,
        margin=None if outlook.margin is None else (outlook.margin.stated, outlook.margin.low),
        critical="" if setting.critical is None else f"{setting.critical:.0f} degC",
        unwatched=(outlook.unwatched, outlook.unwatched_hot),
        short=tuple(
            ShortZone(zone.name, zone.most, zone.short / 60.0)
            for zone in outlook.zones
            if zone.short
        ),
        dip=outlook.dip,
        sides=_sides(setting, field),
        bore=f"{setting.bore.low:.0f} to {setting.bore.high:.0f} W/m2K",
        bore_known=setting.bore_known,
    )  # fmt: skip


def _sides(setting: Setting, field: Field) -> float:
    """By how much the lowest of the soak band differs from one side of the weld to the other, K."""
    if field.mesh.mirrored:
        return 0.0
    near, _ = field.extremes(-setting.soak, 0.0)
    far, _ = field.extremes(0.0, setting.soak)
    return abs(near.celsius - far.celsius)
