"""Predictions of the treatments of a specification, whole and as a check needs them."""

from __future__ import annotations

from functools import lru_cache

from hts.base.arguments import NotCovered
from hts.checking.govern.case import Case
from hts.checking.govern.foreseen import Answer, Foreseen, ShortZone
from hts.language.model.joint import Treatment
from hts.predict.demands import JOB, Demands
from hts.predict.outlook import HOLDS, Outlook, Physics, outlook_of, physics_of
from hts.predict.report import place_words
from hts.predict.scatter import SAMPLES
from hts.predict.setting import NotPredicted, Setting, setting_of
from hts.predict.widths import Width, narrowest
from hts.science.field.state import Field

#: Samples of a check: enough for its 5 % and 95 %, in less time.
_SAMPLES = 60
#: Editors check the same joint again and again, and pages show it after each save.
_KEPT = 8


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
    try:
        setting = setting_of(case, treatment)
        outlook = outlook_of(setting, _kept(_bare(setting), SAMPLES), widths=False, spread=spread)
        return outlook._replace(widths=_widths(_bare(setting), outlook.allowed))
    except NotPredicted as reason:
        return str(reason)
    except NotCovered as error:
        return f"{error}"
    except (ArithmeticError, ValueError) as error:
        return f"the model does not settle: {error}"


def foreseen(case: Case, treatment: Treatment) -> Foreseen:
    """The same as a check needs it, from fewer samples."""
    try:
        setting = setting_of(case, treatment)
        bare = _bare(setting)
        outlook = outlook_of(setting, _kept(bare, _SAMPLES), widths=False)
        if outlook.share < setting.demands.confidence:
            outlook = outlook._replace(widths=_widths(bare, outlook.allowed))
    except NotPredicted as reason:
        return Foreseen(str(reason))
    except NotCovered as error:
        return Foreseen(f"{error}")
    except (ArithmeticError, ValueError) as error:
        return Foreseen(f"the model does not settle: {error}")
    return _told(outlook)


def _bare(setting: Setting) -> Setting:
    """What the physics rests on: names and demands bear on none of it."""
    return setting._replace(
        joint="", treatment="", demands=Demands(()), assumed=(), gap=0.0, sized=None
    )


@lru_cache(maxsize=_KEPT)
def _kept(setting: Setting, samples: int) -> Physics:
    return physics_of(setting, samples)


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
