"""Many specifications in one table, and below it what changed in each."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from hts import __version__
from hts.base.text.json_text import json_text
from hts.job.comparison.approvals import Approval, Judged
from hts.job.comparison.registry import VERDICTS, Verdict
from hts.job.comparison.report import document, markdown, text
from hts.job.comparison.report.told import summary
from hts.job.comparison.whole import Between, Compared
from hts.job.outputs.markdown import Page
from hts.job.outputs.text import visible

FAILED, UNCHANGED, APPROVED = "not compared", "no change", "approved"
_HEADS = ("Asks for", "Specification", "What changed in meaning", "Because")


class Judgement(NamedTuple):
    """One file with the approvals laid over it; `judged` is None where it was not compared."""

    compared: Compared
    judged: Judged | None

    @property
    def verdict(self) -> str:
        """The worst verdict that is open; else that nothing is."""
        if self.judged is None:
            return FAILED
        if self.judged.worst is not None:
            return self.judged.worst
        return APPROVED if self.judged.comparison.changes else UNCHANGED

    @property
    def row(self) -> tuple[str, str, str, str]:
        """The cells under _HEADS."""
        compared = self.compared
        path = compared.path
        if compared.moved_from:
            path = f"{path} (was {compared.moved_from})"
        what = summary(self.judged) if self.judged is not None else compared.failed
        because = ["changed itself"] if compared.itself else []
        because += [f"uses {compared.through}"] if compared.through else []
        return self.verdict, path, what, ", ".join(because)


class Report(NamedTuple):
    """All of them, and the approvals that approve nothing here."""

    sides: Between
    judgements: Sequence[Judgement]
    unused: Sequence[Approval]

    @property
    def ranked(self) -> list[Judgement]:
        """What asks for most comes first."""
        order = (FAILED, *VERDICTS, APPROVED, UNCHANGED)
        return sorted(self.judgements, key=lambda each: order.index(each.verdict))

    @property
    def worst(self) -> Verdict | None:
        """The worst open verdict of all; None where nothing is open."""
        found = [each.judged.worst for each in self.judgements if each.judged is not None]
        return min((v for v in found if v is not None), key=VERDICTS.index, default=None)

    @property
    def summary(self) -> str:
        """How many of each there are, in one line."""
        if not self.judgements:
            return "no specification changed, and none uses something that did"
        verdicts = [each.verdict for each in self.ranked]
        parts = [f"{verdicts.count(each)} {each}" for each in dict.fromkeys(verdicts)]
        count = len(verdicts)
        files = "1 file" if count == 1 else f"{count} files"
        return f"{files} changed or using something that did: {', '.join(parts)}"


def as_text(report: Report, *, colour: bool = False, representation: bool = False) -> str:
    """For a terminal: what changed in each, and the table at the end, where it is seen."""
    parts = []
    for each in reversed(report.ranked):
        if each.judged is not None and each.judged.comparison.changes:
            told = text.write(each.judged, colour=colour, representation=representation)
            parts.append(f"== {visible(each.compared.path)}\n\n{told}")
    rows = [tuple(map(visible, each.row)) for each in report.ranked]
    if rows:
        table = [_HEADS, *rows]
        widths = [max(len(row[column]) for row in table) for column in range(len(_HEADS))]
        lines = (
            "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
            for row in table
        )
        parts.append("\n".join(lines) + "\n")
    parts += [f"approval that fits no change here: {visible(e.shown)}\n" for e in report.unused]
    parts.append(f"{visible(str(report.sides))}: {report.summary}\n")
    return "\n".join(parts)


def as_markdown(report: Report, *, most: int | None = None) -> str:
    """For a merge request: the table, and the changes of each to be unfolded.

    ``most``: letters at most; what does not fit is left out, the most harmless first, and the page
    says so. The table is always there.
    """
    page = Page()
    page.heading(3, f"What changed in meaning: {report.sides}")
    page.line(report.summary)
    if report.judgements:
        page.table(_HEADS, [each.row for each in report.ranked])
    page.bullets(f"approval that fits no change here: {e.shown}" for e in report.unused)
    made = page.text()
    left_out = []
    for each in report.ranked:
        if each.judged is None or not each.judged.comparison.changes:
            continue
        folded = _folded(each)
        if most is not None and len(made) + len(folded) > most:
            left_out.append(each.compared.path)
            continue
        made += folded
    if left_out:
        more = Page()
        more.warning(
            f"The changes of {len(left_out)} of these are too many to stand here: run hts diff."
        )
        made += f"\n{more.text()}"
    return made


def _folded(each: Judgement) -> str:
    assert each.judged is not None
    label = Page()
    label.line(f"{each.compared.path}: {each.verdict}")
    return (
        f"\n<details><summary>\n\n{label.text()}\n</summary>\n\n"
        f"{markdown.write(each.judged)}\n</details>\n"
    )


def as_json(report: Report) -> str:
    """For machines, one document; `specifications` by path."""
    document = {
        "tool": {"name": "hts", "version": __version__},
        "old": report.sides.old,
        "new": report.sides.new,
        "worst": report.worst,
        "specifications": [_data(each) for each in report.judgements],
        "unused_approvals": [entry.as_json() for entry in report.unused],
    }
    return json_text(document)


def _data(each: Judgement) -> dict[str, Any]:
    compared = each.compared
    return {
        "path": compared.path,
        "moved_from": compared.moved_from or None,
        "changed_itself": compared.itself,
        "uses_changed": compared.through or None,
        "verdict": each.verdict,
        "failed": compared.failed or None,
        **(document.changes(each.judged) if each.judged is not None else {}),
    }
