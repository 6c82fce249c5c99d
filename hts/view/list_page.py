"""The list of a folder: what a supervisor looks at first."""

from __future__ import annotations

import os
from typing import NamedTuple

from hts.job.outputs.text import visible
from hts.language.model import Spec
from hts.view import changes, findings
from hts.view.checked import Checked, Stamps
from hts.view.frame import Section
from hts.view.markup import Html, Part, html, table, tag
from hts.view.papers import CURRENT, OUTDATED
from hts.view.source_text import SIGNS


class Row(NamedTuple):
    """One text of the list. `order` is the worst that was found: 0 could not be checked, 1 errors,
    2 warnings, 3 neither. `config` is the file of settings and `day` the day it was judged by;
    `keeps`: whether it stands as long as its files, settings, commit and day are the same."""

    name: str
    order: int
    number: str
    title: str
    revision: str
    status: str
    joints: int
    result: Html
    changed: Html
    fingerprint: str
    calibration: Html
    stamps: Stamps
    config: str
    day: str
    keeps: bool


def row_of(checked: Checked, head: changes.Head) -> Row:
    """The row of a checked text."""
    spec = checked.case.spec if checked.case is not None else None
    job = spec.file.job if spec is not None else None
    revision = job.revision if job is not None else None
    worst = [f.severity for f in checked.findings]
    order = 1 if "error" in worst else 2 if "warning" in worst else 3
    result = findings.counted(checked.findings)
    if checked.refused or checked.faults:
        said = checked.refused or checked.faults[0]
        order, result = 0, tag("span", f"✕ not checked: {said}", class_="state error")
    return Row(
        spec.source.name if spec is not None else os.path.basename(checked.path),
        order,
        job.number if job is not None else "",
        job.name if job is not None else "",
        (revision.name or "") if revision is not None else "",
        _status(spec),
        len(spec.own) if spec is not None else 0,
        result,
        changes.in_short(head.since(checked)),
        checked.fingerprint if job is not None else "",
        _calibration(checked),
        checked.stamps,
        checked.configured.path or "",
        checked.today,
        # Rules of others may ask anything; what could not be checked is tried again.
        not (checked.configured.setting.rule_packs or checked.refused or checked.faults),
    )


def _status(spec: Spec | None) -> str:
    if spec is None:
        return ""
    job = spec.file.job
    if job is None:
        return "used by others"
    return (job.revision.status if job.revision is not None else "") or "not stated"


def _calibration(checked: Checked) -> Html:
    """The calibration that runs out first, of the instruments and wire that the joints use."""
    if checked.case is None:
        return Html("")
    found: list[tuple[str, str]] = []
    for joint in checked.case.spec.own:
        wire = joint.entry.thermocouples
        used: list[tuple[str, object]] = (
            [(f"wire of {joint.name}", wire)] if wire is not None else []
        )
        treatments = [*checked.case.treatments(joint)]
        for each in treatments:
            for what, one in (("recorder", each.recorder), ("controller", each.controller)):
                if one is not None:
                    used.append((f"{what} {one.name}", one))
        for name, entry in used:
            until = getattr(getattr(entry, "calibrated", None), "until", None)
            if until:
                found.append((until, name))
    if not found:
        return tag("span", "none stated", class_="quiet")
    until, name = min(found)
    if until < checked.today:
        return tag("span", f"✕ {name}: ran out {until}", class_="state error")
    return html(f"{name}: until {until}")


class Listed(NamedTuple):
    """A text of the list: where its page is, what it is called, its row once it was checked, and
    whether its papers are current."""

    where: str
    name: str
    row: Row | None
    paper: str = ""


def list_sections(
    listed: list[Listed], refused: list[str], wanted: str, words: str
) -> list[Section]:
    """The list, filtered by result (`wanted`) and by `words` in number, title or name."""
    rows: list[list[Part]] = []
    shown = [one for one in listed if _fits(one, wanted, words)]
    shown.sort(key=lambda one: (one.row.order if one.row is not None else 9, one.name))
    for where, name, row, paper in shown:
        link = tag("a", (row.number or name) if row is not None else name, href=where)
        if row is None:
            rows.append([link, name, *[""] * 3, tag("span", "being checked …"), *[""] * 3])
            continue
        rows.append(
            [
                link,
                html(row.title or name, tag("br"), tag("span", row.name, class_="quiet")),
                row.revision,
                row.status,
                str(row.joints),
                row.result,
                row.changed,
                _paper(paper),
                row.calibration,
            ]
        )
    heads = (
        "Document", "Title", "Revision", "Status", "Joints", "Check", "Since the last commit",
        "Paper", "Calibration that ends first",
    )  # fmt: skip
    done = sum(1 for one in listed if one.row is not None)
    counted = f"{len(shown)} of {len(listed)} shown"
    if done < len(listed):
        counted += f"; {done} of {len(listed)} checked, the others are being checked"
    parts: list[Part] = [
        _filter(wanted, words),
        tag("p", f"{counted}.", role="status"),
        table("Specifications", heads, rows, "list") if rows else tag("p", "Nothing fits."),
    ]
    parts += [tag("p", f"Not listed: {one}", class_="notice") for one in refused]
    return [Section("list", "Specifications", html(*parts))]


def _paper(state: str) -> Part:
    class_ = {CURRENT: "state clean", OUTDATED: "state error"}.get(state, "quiet")
    return tag("span", state, class_=class_)


_FILTERS = {
    "": "all", "unchecked": "not checked", "error": "with errors", "warning": "with warnings",
    "clean": "without either", "changed": "changed", "paper": "paper not current",
}  # fmt: skip


def _fits(listed: Listed, wanted: str, words: str) -> bool:
    row = listed.row
    text = f"{listed.name} {row.number} {row.title}" if row is not None else listed.name
    if words.lower() not in visible(text).lower():
        return False
    if not wanted or row is None:
        return wanted in ("", "unchecked")
    return {
        "unchecked": row.order == 0,
        "error": row.order == 1,
        "warning": row.order == 2,
        "clean": row.order == 3,
        "changed": "state" in row.changed,
        "paper": listed.paper == OUTDATED,
    }.get(wanted, True)


def _filter(wanted: str, words: str) -> Html:
    options = [
        tag("option", label, value=value, selected=value == wanted)
        for value, label in _FILTERS.items()
    ]
    return tag(
        "form",
        tag("label", "Show", tag("select", *options, name="show")),
        tag("label", "With these words", tag("input", name="words", value=words, type="search")),
        tag("button", "Filter"),
        method="get",
        class_="screen",
    )


def legend() -> Html:
    """What the signs of the list mean."""
    return tag("p", "Signs: ", ", ".join((*SIGNS.values(), *changes.SIGNS.values())), ".",
               class_="quiet")  # fmt: skip
