"""What changed since the last commit, and what each change asks for."""

from __future__ import annotations

import os
from collections import Counter
from typing import NamedTuple

from hts.base.text.reading import Unreadable
from hts.checking.checker.fault import fault
from hts.job.comparison import Comparison, compare
from hts.job.comparison.registry import VERDICTS
from hts.job.comparison.report.told import not_predicted
from hts.job.comparison.revisions import CannotRead, Repository, RevisionLoader
from hts.language.model import Spec
from hts.view.checked import Checked
from hts.view.findings import Leads, place
from hts.view.markup import Html, Part, html, table, tag

HEAD = "HEAD"
#: Shape and word of what a change asks for.
SIGNS = {"re-approve": "■ re-approve", "review": "◆ review", "note": "· note"}


class Since(NamedTuple):
    """The comparison with the last commit, or why there is none."""

    comparison: Comparison | None
    why: str = ""


class Head:
    """The last commit of the repository a folder lies in; one for many texts of it."""

    def __init__(self, folder: str) -> None:
        self._repository = Repository(folder)
        self._loader: RevisionLoader | None = None
        self._touched: frozenset[str] = frozenset()
        self.why = ""
        try:
            self._loader = RevisionLoader(self._repository, HEAD)
            root = self._repository.root
            pairs = self._repository.changed(self._loader.commit, None)
            self._touched = frozenset(os.path.join(root, p) for pair in pairs for p in pair if p)
        except CannotRead as error:
            self.why = str(error)

    def since(self, checked: Checked) -> Since:
        """What a text changed; it is compared only where it or what it uses was touched."""
        if checked.case is None:
            return Since(None, "the text cannot be read")
        spec, loader = checked.case.spec, self._loader
        if loader is None:
            return Since(None, self.why)
        path = os.path.realpath(checked.path)
        rests_on = {os.path.realpath(each) for each in checked.files}
        if loader.has(path) and not rests_on & self._touched:
            return Since(Comparison(spec, spec, [], []))
        try:
            old = None
            if loader.has(path):
                old = Spec(loader.read(path), loader, checked.configured.defaults)
            return Since(compare(old, spec, today=checked.today))
        except (CannotRead, Unreadable) as error:
            return Since(None, str(error))
        except Exception as error:
            if os.environ.get("HTS_DEBUG"):
                raise
            return Since(None, fault(error))


def since_head(checked: Checked) -> Since:
    """The comparison of one text with the last commit, made once."""
    folder = os.path.dirname(os.path.abspath(checked.path))
    made = checked.kept("since", lambda: Head(folder).since(checked))
    assert isinstance(made, Since)
    return made


def in_short(since: Since) -> Html:
    """`■ 2 re-approve, ◆ 1 review`; `unchanged`."""
    if since.comparison is None:
        return tag("span", "not compared", class_="quiet")
    counts = Counter(change.verdict for change in since.comparison.changes)
    parts = [
        tag("span", f"{SIGNS[v].partition(' ')[0]} {counts[v]} {v}", class_=f"state {v}")
        for v in VERDICTS
        if counts[v]
    ]
    return Html(", ".join(parts)) if parts else tag("span", "unchanged", class_="quiet")


def changes(since: Since, leads: Leads) -> Html:
    """The changes, the gravest first."""
    if since.comparison is None:
        return tag("p", f"Not compared with the last commit: {since.why}.")
    found = since.comparison.changes
    if not found:
        spelled = since.comparison.representations
        places = f"{len(spelled)} place{'s' if len(spelled) > 1 else ''}"
        more = f" Written otherwise in {places}." if spelled else ""
        if since.comparison.unpredicted:
            said = not_predicted(since.comparison)
            more += f" {said[0].upper()}{said[1:]}."
        return tag("p", f"No change in meaning since the last commit.{more}")
    rows: list[list[Part]] = []
    for change in sorted(found, key=lambda each: VERDICTS.index(each.verdict)):
        side = change.new
        where: Html | None = None
        if side is not None and side.place is not None:
            where = place(side.place, leads, change.address or "the document")
        rows.append(
            [
                tag("span", SIGNS[change.verdict], class_=f"state {change.verdict}"),
                f"{change.kind} {change.action}" + (f": {change.part}" if change.part else ""),
                where or change.address,
                html(
                    tag("del", change.old.text) if change.old is not None else None,
                    tag("ins", change.new.text) if change.new is not None else None,
                ),
                html(change.reason, f"; lacks {change.lacks}" if change.lacks else None),
            ]
        )
    heads = ("Asks for", "What", "Where", "Before and now", "Why")
    told = table("Changes since the last commit", heads, rows, "list")
    if not since.comparison.unpredicted:
        return told
    said = not_predicted(since.comparison)
    return html(told, tag("p", f"{said[0].upper()}{said[1:]}.", class_="quiet"))
