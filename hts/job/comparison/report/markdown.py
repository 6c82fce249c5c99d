"""For a merge request: a table in Markdown, in which no text of a specification is markup."""

from __future__ import annotations

from hts.job.comparison.approvals import Judged
from hts.job.comparison.report.told import Told, kind, names, place, summary, texts, told
from hts.job.outputs.markdown import Page


def write(judged: Judged) -> str:
    """The page."""
    page = Page()
    old, new = names(judged.comparison)
    page.heading(3, f"What changed in meaning: {old} to {new}")
    page.line(summary(judged))
    rows = [_row(each) for each in told(judged)]
    if rows:
        page.table(("Asks for", "What", "Old", "New", "Why"), rows)
    page.bullets(f"approval that fits no change here: {entry.shown}" for entry in judged.unused)
    return page.text()


def _row(each: Told) -> tuple[str, ...]:
    change = each.change
    verdict: str = change.verdict
    if each.approval is not None:
        verdict = f"{verdict}, approved by {each.approval.by}"
    what = f"{change.address or 'the file'}: {kind(change)}"
    if each.also:
        what += f", the same at {', '.join(each.also)}"
    why = change.reason
    if change.lacks:
        why += f"; the files lack: {change.lacks}"
    if change.source:
        why += f" ({change.source}, {change.basis})"
    return (verdict, what, *_sides(each), why)


def _sides(each: Told) -> tuple[str, str]:
    old, new = (
        f"{text} ({at})" if (at := place(side)) else text
        for side, text in zip((each.change.old, each.change.new), texts(each.change), strict=True)
    )
    return old, new
