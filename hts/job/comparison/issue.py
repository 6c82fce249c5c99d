"""Whether a document that changed says so: its revision moved, and its history tells what for."""

from __future__ import annotations

from collections.abc import Iterator

from hts.job.comparison.change import Change, Side, make
from hts.job.comparison.lookup import named
from hts.job.comparison.registry import ADDED, CHANGED, NOTE, REAPPROVE, REMOVED, VERDICTS, Verdict
from hts.language.model import Spec
from hts.language.vocabulary.job import Revision
from hts.language.vocabulary.procedure import Procedure
from hts.language.vocabulary.weld_list import WeldList

#: Kinds of the area document that are more than its name, its issue and its signatures.
_CONTENT = ("scope", "range of the scope", "units on paper", "referred document", "open point")


def issue(changes: list[Change], old: Spec, new: Spec) -> Iterator[Change]:
    """What is wrong with the revisions of the job and of the procedures it follows."""
    before, after = old.file.job, new.file.job
    content = [change for change in changes if _is_content(change)]
    if before is not None and after is not None and content:
        verdict = _worst(content)
        yield from _kept("job", before.revision, after.revision, verdict)
        names = [line.name for line in (after.history.lines if after.history else ())]
        if after.revision is not None and after.revision.name not in (None, *names):
            row = named("document", "silent history")
            shown = f"history: {', '.join(map(str, names)) or 'none'}"
            place = after.place("history" if after.history is not None else "revision")
            side = Side("job/history", shown, after.revision.name, place)
            reason = f"{row.why}: it has no line for {after.revision.name}"
            yield make("job.history", row, CHANGED, None, side, verdict, reason)
    known = _first(new.procedures)
    for name, procedure in _first(old.procedures).items():
        other = known.get(name)
        if other is None:
            continue
        own = [c for c in changes if c.area == "procedure" and c.kind != "identity"]
        own = [c for c in own if c.address.startswith(f"{name}/")]
        if own:
            verdict = _worst(own)
            yield from _kept(name, procedure.revision, other.revision, verdict)


def list_revisions(old: Spec, new: Spec) -> Iterator[Change]:
    """The revisions that weld lists state of themselves, where they are no longer the same."""
    row = named("document", "weld list revision")
    before, after = ({each.name: each for each in spec.weld_lists} for spec in (old, new))
    for name in dict.fromkeys((*before, *after)):
        sides = [_of_list(listed.get(name)) for listed in (before, after)]
        first, second = sides
        if (first and first.value) != (second and second.value):
            action = CHANGED if first and second else ADDED if second else REMOVED
            yield make("", row, action, first, second)


def _of_list(listed: WeldList | None) -> Side | None:
    if listed is None or listed.revision is None:
        return None
    place = listed.place("revision")
    return Side(f"{listed.name}/revision", listed.revision, listed.revision, place)


def _first(procedures: list[Procedure]) -> dict[str, Procedure]:
    """The first procedure of each name."""
    return {each.name: each for each in reversed(procedures) if each.name}


def _is_content(change: Change) -> bool:
    if change.area == "document":
        return change.kind in _CONTENT
    # A procedure has a revision of its own; a limit that the text only has to meet is not on paper.
    return change.area != "procedure" and not (change.area == "limit" and change.verdict == NOTE)


def _worst(changes: list[Change]) -> Verdict:
    return min((change.verdict for change in changes), key=VERDICTS.index)


def _kept(
    address: str, before: Revision | None, after: Revision | None, verdict: Verdict
) -> Iterator[Change]:
    if before is None or after is None or before.name is None or before.name != after.name:
        return
    row = named("document", "revision kept")
    sides = [
        Side(f"{address}/revision", f"revision {said.name}", said.name, said.place("name"))
        for said in (before, after)
    ]
    reason = f"the content changed, the revision is still {after.name}: {row.why}"
    if verdict != REAPPROVE:
        reason = f"the content changed, the revision is still {after.name}"
    yield make("job.revision", row, CHANGED, sides[0], sides[1], verdict, reason)
