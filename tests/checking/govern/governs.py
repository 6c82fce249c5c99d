"""All that governs a specification, a line each: facts, limits, values by rule, demands of
procedures."""

from __future__ import annotations

from collections.abc import Iterator

from hts.checking.govern import demanded
from hts.checking.govern.applying import applying, known, refusals
from hts.checking.govern.case import Case
from hts.checking.govern.joint import JointLimits
from hts.checking.govern.ring import ring_of
from hts.language.model.joint import Joint
from hts.language.vocabulary.segments import Hold
from hts.limits.quantities import Direction

DIRECTIONS: tuple[Direction, ...] = ("minimum", "maximum", "exactly")


def _facts(limits: JointLimits) -> Iterator[str]:
    for side, facts in limits.facts.items():
        said = ", ".join(f"{name} {fact}" for name, fact in sorted(facts.items()))
        yield f"facts {side}: {said}"


def limits_told(limits: JointLimits) -> Iterator[str]:
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


def outcomes_told(found: list[demanded.Outcome]) -> Iterator[str]:
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


def all_told(case: Case) -> Iterator[str]:
    for each in case.authorities:
        yield f"authority {each.name} {each.edition} {each.is_book} {len(each.limits)}"
    for joint in case.joints():
        limits = case.limits(joint)
        yield f"joint {joint.name}"
        yield from _facts(limits)
        yield from limits_told(limits)
        yield f"ring {_ring(joint, limits)}"
        for each in case.authorities:
            if each.procedure is not None:
                is_for = applying(each.procedure, list(known(limits).values()))
                refused = {
                    side: [f"{one.clause}: {one.is_}" for one in some]
                    for side, some in refusals(each.procedure, limits).items()
                }
                yield f"{each.name} is for it: {is_for} {refused}"
        for treatment in case.treatments(joint):
            own = case.limits(joint, treatment)
            yield f"treatment {treatment.address}"
            yield from _facts(own)
            yield from limits_told(own)
            for segment in treatment.entry.segments:
                if isinstance(segment, Hold):
                    yield f"hold {own.hold_range(segment)} for {own.hold_time(segment)}"
        yield from outcomes_told(demanded.of_joint(case, joint))
    yield from outcomes_told(demanded.of_job(case))
