"""All that governs texts that say nearly everything, line for line: facts, limits, values by rule,
demands of procedures."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from hts.base.text import Source
from hts.checking.govern import demanded
from hts.checking.govern.applying import applying, known, refusals
from hts.checking.govern.case import Case
from hts.checking.govern.joint import JointLimits
from hts.checking.govern.ring import ring_of
from hts.language.model import Loader, Spec
from hts.language.model.joint import Joint
from hts.language.vocabulary.segments import Hold
from hts.limits.quantities import Direction
from tests import told
from tests.rich import texts
from tests.specs.test_requirement_kinds import JOBS, ROOT, ROWS, _under

DIRECTIONS: tuple[Direction, ...] = ("minimum", "maximum", "exactly")
KEPT = Path(__file__).with_name("told")


def _facts(limits: JointLimits) -> Iterator[str]:
    for side, facts in limits.facts.items():
        said = ", ".join(f"{name} {fact}" for name, fact in sorted(facts.items()))
        yield f"facts {side}: {said}"


def _limits(limits: JointLimits) -> Iterator[str]:
    for name, entry in limits.options.items():
        yield f"option {name}: {entry.words}"
    for quantity, governing in limits.governing.items():
        for direction in DIRECTIONS:
            for each in governing.ordered(direction):
                yield (
                    f"{quantity} {direction} {each.bounds[direction]}"
                    f"{f' above {each.above}' if each.above is not None else ''}: "
                    f"{each.limit.source.name} {each.limit.id} {each.side or ''}"
                )
            found = limits.derived(quantity, direction)
            if found is not None:
                yield f"by rule {quantity} {direction}: {found.value}, {found.formula}"
        for one in governing.unanswered:
            yield f"{quantity}: {one.limit.source.name} {one.limit.id} open: {one[1:]}"
    for band in ("soak band", "heated band", "gradient band"):
        yield f"{band}: {limits.band(band)}"
    yield (
        f"thickness {limits.thickness}, preheat {limits.preheat()}, interpass "
        f"{limits.interpass()}, zones {limits.zone_count()}"
    )


def _outcomes(found: list[demanded.Outcome]) -> Iterator[str]:
    for each in found:
        where = list(dict.fromkeys(span.text.split("\n")[0] for span in each.where))
        at = each.at.text.splitlines()[:1]
        values = f" [{', '.join(where)}]" if where != at else ""
        yield (
            f"{each.authority.name} {_line(each)}: {each.verdict} {each.why}{values} "
            f"at {', '.join(at)}"
        )


def _line(outcome: demanded.Outcome) -> str:
    """The demand as it is written."""
    span = outcome.line.place()
    return span.source.line(span.source.position(span.start)[0]).strip()


def _ring(joint: Joint, limits: JointLimits) -> str:
    ring = ring_of(joint, limits)
    if ring is None:
        return "none"
    shown = ring._asdict() | {"material": ring.material.name}
    return ", ".join(f"{name} {value}" for name, value in shown.items())


def _all(case: Case) -> Iterator[str]:
    for each in case.authorities:
        yield f"authority {each.name} {each.edition} {each.is_book} {len(each.limits)}"
    for joint in case.joints():
        limits = case.limits(joint)
        yield f"joint {joint.name}"
        yield from _facts(limits)
        yield from _limits(limits)
        yield f"ring {_ring(joint, limits)}"
        for each in case.authorities:
            if each.procedure is not None:
                is_for = applying(each.procedure, list(known(limits).values()))
                yield f"{each.name} is for it: {is_for} {refusals(each.procedure, limits)}"
        for treatment in case.treatments(joint):
            own = case.limits(joint, treatment)
            yield f"treatment {treatment.address}"
            yield from _facts(own)
            yield from _limits(own)
            for segment in treatment.entry.segments:
                if isinstance(segment, Hold):
                    yield f"hold {own.hold_range(segment)} for {own.hold_time(segment)}"
        yield from _outcomes(demanded.of_joint(case, joint))
    yield from _outcomes(demanded.of_job(case))


def _governs(name: str) -> str:
    return "\n".join(dict.fromkeys(_all(Case(texts.spec(name), "2026-11-20"))))


def test_all_that_governs() -> None:
    told.each_once(KEPT / "governs.txt", {name: _governs(name) for name in texts.NAMES})


def test_every_kind_of_requirement() -> None:
    """What comes of each line, and what it limits, where it is broken; as a digest where it is
    met, for which tests.specs asks."""
    met = [line for job in JOBS for line in _kinds(job, "met").splitlines()]
    told.same(KEPT / "kinds.txt", "met", told.digest(met))
    for job in JOBS:
        told.same(KEPT / "kinds.txt", job, _kinds(job, "broken"))


def _turned(words: Mapping[str, str]) -> Callable[[str], str]:
    """Each of these words for the other."""
    found = re.compile(rf"\b({'|'.join(words)})\b")
    return lambda line: found.sub(lambda word: words[word[0]], line)


def _times(factor: float) -> Callable[[str], str]:
    return lambda line: re.sub(
        r"(?<![\w.:/-])\d+(?:\.\d+)?(?= [^\d\s])", lambda n: f"{float(n[0]) * factor:g}", line
    )


#: What becomes of every line that is met, so that most are met no longer, or for another reason.
_OTHERS = {
    "twice": _times(2),
    "half": _times(0.5),
    "forbidden": _turned({"requires": "forbids", "forbids": "requires"}),
    "most for least": _turned({"least": "most", "most": "least"}),
    "elsewhere": _turned({"weld": "soak edge", "12:00": "1:00", "6:00": "7:30", "each": "all"}),
}


def test_every_kind_of_requirement_otherwise() -> None:
    for name, change in _OTHERS.items():
        lines = [line for job in JOBS for line in _kinds(job, "met", change).splitlines()]
        told.write_whole(KEPT / "kinds.txt", f"{name} line by line", lines)
        told.same(KEPT / "kinds.txt", name, told.digest(lines))


def _kinds(job: str, form: str, change: Callable[[str], str] = str) -> str:
    lines = [(f"K-{n}", change(getattr(row, form))) for n, row in enumerate(ROWS) if row.job == job]
    path = str(ROOT / job)
    case = Case(Spec(Source(_under(job, lines), job, path), Loader(str(ROOT))))
    found: list[str] = []
    for joint in case.joints():
        found += _outcomes(demanded.of_joint(case, joint))
        for treatment in (None, *case.treatments(joint)):
            found += [line for line in _limits(case.limits(joint, treatment)) if "K-" in line]
    found += _outcomes(demanded.of_job(case))
    return "\n".join(dict.fromkeys(found))
