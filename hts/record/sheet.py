"""The sheet a run was made to: what was compiled and handed out, beside what the text says now.

A book, a procedure or the text may have changed since. The run was heated to the sheet; where that
asked for something else than is judged by here, nothing is met until somebody has looked at it.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from hts.base.text.reading import Unreadable, read_text
from hts.job.compiler.job import Job
from hts.job.compiler.why import Why
from hts.job.outputs import job_json
from hts.record.errors import RecordError
from hts.record.judging.judgement import Judgement
from hts.record.judging.verdict import MET, NOT_SHOWN, Failure, Verdict
from hts.record.plan import Plan

Json = dict[str, Any]
#: What of a treatment is asked of the run; reasons, forms of proof and remarks are not.
_ASKED = ("controller", "recorder", "start", "rate_margin", "zones", "program", "settings", "tags",
          "derived", "undecided")  # fmt: skip
_WORDS = {"program": "step"}
_OF_JOINT = ("widths", "derived")
#: Keys that tell the entries of a list apart, the first that is there.
_KEYS = ("step", "tag", "name", "quantity")
#: Follows from the rest, or is said of it.
_LEFT_OUT = frozenset(
    ("stricter_than", "proof", "note", "duration", "elapsed", "earliest", "latest")
)
#: Differences that are told one by one.
_MOST = 12


def read(path: str) -> Json:
    """A `job.json` that was compiled. Raises RecordError where it is none."""
    remedy = "name the job.json that `hts compile` wrote for the issue the run was made to"
    try:
        found = json.loads(read_text(path))
    except Unreadable as error:
        raise RecordError(path, str(error), remedy) from None
    except (ValueError, RecursionError):
        raise RecordError(path, "this is not JSON", remedy) from None
    joints = found.get("joints") if isinstance(found, dict) else None
    if not isinstance(joints, list) or not isinstance(found.get("document"), dict):
        raise RecordError(path, "this is not a compiled job", remedy)
    return dict(found)


def judged(judgement: Judgement, sheet: Json) -> Judgement:
    """With a verdict on whether the run is judged by what its sheet asked for."""
    return judgement._replace(verdicts=(verdict(judgement, sheet), *judgement.verdicts))


def verdict(judgement: Judgement, sheet: Json) -> Verdict:
    plan, end = judgement.plan, judgement.record.end
    theirs, ours = sheet["document"], plan.job.document
    sentences = []
    for what, of_sheet, now in (
        ("document", theirs.get("number"), ours.number),
        ("revision", theirs.get("revision"), ours.revision),
    ):
        if of_sheet != now:
            sentences.append(f"the sheet is of {what} {of_sheet}, the text is {what} {now}")
    sentences += _differences(sheet, plan)
    more = len(sentences) - _MOST
    if more > 0:
        sentences = [*sentences[:_MOST], f"and {more} more differences"]
    same = sheet.get("fingerprint") == ours.fingerprint
    return Verdict(
        "sheet of the run",
        plan.address,
        f"as the sheet {sheet.get('fingerprint')}",
        f"{len(sentences)} differences" if len(sentences) > 1 else "1 difference"
        if sentences
        else f"the same{'' if same else ', though the text has changed'}",
        NOT_SHOWN if sentences else MET,
        None,
        tuple(Failure((), 0.0, end, sentence) for sentence in sentences),
        Why(source="the sheet", note="compiled when it was issued"),
    )  # fmt: skip


def _differences(sheet: Json, plan: Plan) -> list[str]:
    then = _of_run(sheet, plan)
    if then is None:
        return [f"the sheet has no {plan.address}"]
    now = _of_run(compiled(plan.job), plan)
    assert now is not None
    said, here = dict(_figures(then)), dict(_figures(now))
    return [
        f"{place}: {said.get(place, 'nothing')} on the sheet, {here.get(place, 'nothing')} now"
        for place in {**said, **here}
        if said.get(place) != here.get(place)
    ]


def compiled(job: Job) -> Json:
    """The same of the text as it is now."""
    found: Json = json.loads(job_json.write(job))
    return found


def _of_run(sheet: Json, plan: Plan) -> Json | None:
    """What is asked of the run that is judged."""
    for joint in _entries(sheet.get("joints")):
        if joint.get("name") != plan.joint:
            continue
        for treatment in _entries(joint.get("treatments")):
            if treatment.get("name") == plan.name:
                asked = {_WORDS.get(key, key): treatment.get(key) for key in _ASKED}
                return {**asked, "joint": {key: joint.get(key) for key in _OF_JOINT}}
    return None


def _entries(value: object) -> list[Json]:
    return [one for one in value if isinstance(one, dict)] if isinstance(value, list) else []


def _figures(value: object, place: str = "") -> Iterator[tuple[str, str]]:
    """Each figure by its place in words: `step 3 window to` and `720 °C (1328 °F)`."""
    if isinstance(value, dict):
        if "shown" in value:
            yield place, str(value["shown"])
            return
        for key, inner in value.items():
            if key not in _LEFT_OUT and not key.endswith("why"):
                yield from _figures(inner, f"{place} {key.replace('_', ' ')}".strip())
    elif isinstance(value, list):
        for inner in value:
            if isinstance(inner, dict):
                key = next((str(inner[key]) for key in _KEYS if key in inner), "")
                direction = inner.get("direction", "")
                yield from _figures(inner, f"{place} {key} {direction}".strip())
            else:
                yield f"{place} {inner}".strip(), "stated"
    elif value is not None and value != "":
        yield place, str(value)
