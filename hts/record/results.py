"""What was found after the heat, held against what the specification asks for.

A result that is missing is not shown, and never met; without a results file nothing hangs on it,
for the papers may lie elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import timedelta
from pathlib import Path
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.job.compiler.why import Why, stated
from hts.language.model import Loader, Spec
from hts.language.model.joint import Joint
from hts.language.model.load import Unreadable, root_of
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.results import Found, HardnessFound, Results
from hts.language.vocabulary.work import After, Examination, HandOver, Hardness, Straightness, Work
from hts.record.errors import RecordError
from hts.record.judging.judgement import Judgement
from hts.record.judging.verdict import MET, NOT_MET, NOT_SHOWN, Failure, Outcome, Verdict
from hts.record.plan import Plan
from hts.record.record import Record, after

_NOTHING = "no result says so"
#: The clock of a record that names its offset may stand this far from that of the workplace.
_OTHER_CLOCK = timedelta(hours=14)


class Days(NamedTuple):
    """The days (ISO) a record spans: what is done after the heat is not done before `first`, and
    what is done before it not after `last`; None where another heat of the weld follows."""

    first: str
    last: str | None


def days(asked: Plan, record: Record) -> Days | None:
    """The days of a record; None where its clock names none."""
    if record.start is None:
        return None
    apart = _OTHER_CLOCK if record.start.tzinfo is not None else timedelta()
    final = asked.sheet.runs[-1].program.name == asked.run.program.name
    try:
        first = (record.start - apart).date()
        last = (after(record.start, record.end) + apart).date()
    except OverflowError:
        return None
    return Days(first.isoformat(), last.isoformat() if final else None)


def beside(spec: str) -> str | None:
    """The results file that goes with a specification: `NAME.results.hts` beside it; None where
    there is none."""
    path = Path(spec)
    found = path.with_name(f"{path.stem}.results.hts")
    return str(found) if found.is_file() else None


def judged(judgement: Judgement, path: str | None) -> Judgement:
    """With what was found after the heat, by the results file at `path`; None: there is none."""
    plan = judgement.plan
    names = [sheet.joint.name for sheet in plan.job.joints]
    given = read(path, names) if path is not None else None
    found = verdicts(plan.sheet.joint, given, days(plan, judgement.record))
    return judgement._replace(verdicts=(*judgement.verdicts, *found))


def read(path: str, joints: Sequence[str]) -> list[Results]:
    """The results in a file. Raises RecordError where it cannot be read whole, has none, or names
    a joint that the specification does not have."""
    loader = Loader(root_of(path))
    try:
        spec = Spec(loader.read(path), loader)
    except Unreadable as error:
        raise RecordError(path, str(error), "name a results file") from None
    errors = [finding for finding in spec.findings if finding.severity == "error"]
    if errors:
        line, column = spec.source.position(errors[0].at.span.start)
        place, help = f"{path}:{line}:{column}", errors[0].help
        raise RecordError(place, errors[0].message, help or "run `hts check` on it")
    if not spec.file.results:
        raise RecordError(path, "it has no `results`", f"write, for example: {Results.example}")
    for entry in spec.file.results:
        for name in entry.joints:
            if name not in joints:
                line, column = spec.source.position(entry.place("joints").start)
                remedy = f"the specification has {', '.join(joints)}"
                raise RecordError(f"{path}:{line}:{column}", f"there is no joint {name}", remedy)
    return spec.file.results


def verdicts(
    joint: Joint, results: Sequence[Results] | None, run: Days | None = None
) -> list[Verdict]:
    """A verdict on all that is asked for before, during and after heat and shown by a result;
    ``results`` None: there is no results file. ``run``: the days of the heat, where known."""
    given = results is not None
    own = [entry for entry in results or () if joint.name in entry.joints]
    found = [*_after(joint, own, run)]
    stages: list[tuple[str, Work]] = [
        *(("before heat", stage) for stage in joint.before),
        *(("during heat", stage) for stage in joint.during),
        *(("after heat", stage) for stage in joint.after),
    ]
    for name, stage in stages:
        found += [_examined(joint, name, each, own, run) for each in stage.examinations]
    if given:
        for name, stage in stages:
            found += _done(joint, name, stage, own, run)
    for each in found:
        each.elsewhere = not given
    return found


def _in_turn(
    outcome: Outcome, said: str, found: Sequence[Found], stage: str, run: Days | None
) -> tuple[Outcome, str]:
    """Not shown, and why, where every result is of a day when the heat was still to come, or over
    already; the outcome as it is where one is not, or has no day."""
    dated = [each.on for each in found if each.on is not None]
    if outcome != MET or run is None or not dated or len(dated) < len(found):
        return outcome, said
    if stage == "before heat" and run.last is not None and min(dated) > run.last:
        return NOT_SHOWN, f"{said}; the heat was over on {run.last}"
    if stage == "after heat" and max(dated) < run.first:
        return NOT_SHOWN, f"{said}; the heat began on {run.first}"
    return outcome, said


def _after(joint: Joint, own: Sequence[Results], run: Days | None) -> Iterator[Verdict]:
    for stage in joint.after:
        for limit in stage.hardness:
            yield _hardness(joint, limit, own, run)
        if stage.straightness is not None:
            yield _straight(joint, stage.straightness, own, run)


def _hardness(joint: Joint, limit: Hardness, own: Sequence[Results], run: Days | None) -> Verdict:
    entries = [each for result in own for each in result.hardness if each.zone == limit.zone]
    readings = [reading for each in entries for reading in each.readings]
    most = [*_mosts(limit, own)]
    parts = [f"at least {limit.at_least}"] if limit.at_least is not None else []
    parts += [f"at most {limit.at_most}"] if limit.at_most is not None else []
    parts += [f"at most {limit.share} of base metal"] if limit.share is not None else []
    parts += [f"{limit.count} places"] if limit.count is not None else []
    outcome: Outcome = MET
    said = "; ".join(map(_readings, entries)) or _NOTHING
    failures: list[Failure] = []
    if len(readings) < (limit.count or 1):
        outcome = NOT_SHOWN
        if readings:
            said += f": {len(readings)} of {limit.count} places"
    if limit.share is not None and len(most) < 1 + (limit.at_most is not None):
        outcome, said = NOT_SHOWN, f"{said}; no reading of the base metal on this scale"
    for reading in readings:
        try:
            soft = limit.at_least is not None and reading < limit.at_least
            hard = next((bound for bound in most if reading > bound), None)
        except TypeError:
            outcome = NOT_SHOWN if outcome == MET else outcome
            said += f"; {reading} is on another scale than the limit"
            continue
        if soft or hard is not None:
            outcome = NOT_MET
            bound = f"below {limit.at_least}" if soft else f"above {hard}"
            failures.append(Failure((), 0.0, 0.0, f"{reading} in the {limit.zone} is {bound}"))
    parts += _window(limit.after, limit.tested_within)
    for each in entries:
        told = _timed(each.after, limit.after, limit.tested_within)
        if told and each.after is not None:
            outcome = NOT_MET
            failures.append(Failure((), 0.0, 0.0, f"the {limit.zone} was tested {told}"))
        elif told and outcome == MET:
            outcome, said = NOT_SHOWN, f"{said}; {told}"
    outcome, said = _in_turn(outcome, said, entries, "after heat", run)
    why = stated(limit, "at_most", ", ".join(parts))
    return _verdict(joint, f"hardness of the {limit.zone}", parts, said, outcome, failures, why)


def _readings(entry: HardnessFound) -> str:
    at = f" at {entry.spots}" if entry.spots else ""
    return f"{', '.join(map(str, entry.readings))}{at}{_who(entry)}"


def _who(entry: Found) -> str:
    """` by Inspector on 2026-12-02`, as far as it is said."""
    by = f" by {entry.by}" if entry.by else ""
    return f"{by} on {entry.on}" if entry.on else by


def _mosts(limit: Hardness, own: Sequence[Results]) -> Iterator[Quantity]:
    """The greatest values: as stated, and the share of the mean of the base metal's readings."""
    if limit.at_most is not None:
        yield limit.at_most
    if limit.share is None:
        return
    scale = limit.at_most.unit.symbol if limit.at_most is not None else ""
    metal = [
        reading
        for result in own
        for each in result.hardness
        if each.zone == "base metal"
        for reading in each.readings
        if reading.unit.symbol == scale
    ]
    if metal:
        mean = sum((reading.value for reading in metal), 0 * metal[0].value) / len(metal)
        yield Quantity.of(mean * limit.share.value / 100, scale, metal[0].dimension)


def _straight(
    joint: Joint, limit: Straightness, own: Sequence[Results], run: Days | None
) -> Verdict:
    found = [each for result in own for each in result.straightness]
    outcome: Outcome = MET if found else NOT_SHOWN
    failures = []
    for each in found:
        assert limit.within is not None and limit.per is not None and each.per is not None
        if each.measured.value * limit.per.value > limit.within.value * each.per.value:
            outcome = NOT_MET
            sentence = f"{each.measured} per {each.per} is more than {limit.within} per {limit.per}"
            failures.append(Failure((), 0.0, 0.0, sentence))
    said = "; ".join(f"{each.measured} per {each.per}{_who(each)}" for each in found) or _NOTHING
    outcome, said = _in_turn(outcome, said, found, "after heat", run)
    parts = [f"within {limit.within} per {limit.per}"]
    why = stated(limit, "within", parts[0])
    return _verdict(joint, "straightness", parts, said, outcome, failures, why)


def _examined(
    joint: Joint, stage: str, asked: Examination, own: Sequence[Results], run: Days | None
) -> Verdict:
    found = [
        each
        for result in own
        for each in result.examinations
        if each.method.casefold() == asked.method.casefold()
    ]
    parts = ["accepted", *_window(asked.after, asked.within)]
    outcome: Outcome = MET if found else NOT_SHOWN
    failures: list[Failure] = []
    said = []
    for each in found:
        after = f" after {each.after}" if each.after is not None else ""
        report = f", {each.report}" if each.report else ""
        said.append(f"{each.outcome}{after}{report}{_who(each)}")
        told = _timed(each.after, asked.after, asked.within)
        if each.outcome == "rejected" or (told and each.after is not None):
            outcome = NOT_MET
            what = "rejected" if each.outcome == "rejected" else f"tested {told}"
            failures.append(Failure((), 0.0, 0.0, f"{asked.method} was {what}"))
        elif told and outcome == MET:
            outcome = NOT_SHOWN
            said.append(told)
    outcome, shown = _in_turn(outcome, "; ".join(said) or _NOTHING, found, stage, run)
    why = stated(asked, "method", f"examine {asked.method}")
    name = f"examination {asked.method}, {stage}"
    return _verdict(joint, name, parts, shown, outcome, failures, why)


def _window(after: Quantity | None, within: Quantity | None) -> list[str]:
    parts = [f"not before {after}"] if after is not None else []
    return parts + ([f"within {within}"] if within is not None else [])


def _timed(found: Quantity | None, after: Quantity | None, within: Quantity | None) -> str:
    """What is wrong with the time something was done, from the end of the heat; empty where
    nothing is, or no time is asked for."""
    if after is None and within is None:
        return ""
    if found is None:
        return "how long after the heat is not said"
    if after is not None and found < after:
        return f"already after {found}"
    if within is not None and found > within:
        return f"only after {found}"
    return ""


def _done(
    joint: Joint, name: str, stage: Work, own: Sequence[Results], run: Days | None
) -> Iterator[Verdict]:
    """Checks, points, markings and documents, each by its own words."""
    wanted: list[tuple[str, str, str | None, Entry, str]] = []
    wanted += [("check", each.text, each.by, each, "text") for each in stage.checks]
    wanted += [("hold point", each.text, each.by, each, "text") for each in stage.hold_points]
    wanted += [("witness point", each.text, each.by, each, "text") for each in stage.witness_points]
    wanted += [("review point", each.text, each.by, each, "text") for each in stage.review_points]
    if isinstance(stage, After):
        wanted += [("marking", text, None, stage, "marking") for text in stage.marking]
        wanted += [("hand-over", each.text, None, each, "text") for each in stage.hand_over]
    for what, text, by, entry, field in wanted:
        found = [
            each
            for result in own
            for each in result.done
            if each.text.casefold() == text.casefold()
        ]
        right = [each for each in found if by is None or each.by == by]
        outcome: Outcome = MET if right else NOT_SHOWN
        said = _NOTHING
        if found:
            first = (right or found)[0]
            since = f" after {first.after}" if first.after is not None else ""
            said = f"done{since}{_who(first)}"
        if what not in ("marking", "hand-over"):
            outcome, said = _in_turn(outcome, said, right, name, run)
        parts = [f"by {by}"] if by else ["done"]
        failures: list[Failure] = []
        if isinstance(entry, HandOver):
            parts += [f"to {entry.to}"] if entry.to else []
            parts += _window(None, entry.within)
            told = _timed(found[0].after, None, entry.within) if found else ""
            if told and found[0].after is not None:
                outcome = NOT_MET
                failures.append(Failure((), 0.0, 0.0, f"{text} was handed over {told}"))
            elif told:
                outcome, said = NOT_SHOWN, f"{said}; {told}"
        why = stated(entry, field, text)
        yield _verdict(joint, f"{what}, {name}: {text}", parts, said, outcome, failures, why)


def _verdict(
    joint: Joint,
    name: str,
    parts: Sequence[str],
    said: str,
    outcome: Outcome,
    failures: Sequence[Failure],
    why: Why,
) -> Verdict:
    return Verdict(name, joint.address, ", ".join(parts), said, outcome, None, tuple(failures), why)
