"""A copy of a page as one file: no script, nothing from elsewhere, for phones and tablets."""

from __future__ import annotations

import re

from hts.base.text import Span
from hts.view.checked import Checked
from hts.view.frame import page
from hts.view.markup import Html, html, tag
from hts.view.picture import picture
from hts.view.predicted_page import asked_for, can_be_asked, part
from hts.view.predictions import Predictions
from hts.view.site import file_text
from hts.view.spec_page import own_line, printed_foot, spec_head, spec_sections, title_of

_UNSAFE = re.compile(r"[^A-Za-z0-9_.-]+")


def exported(checked: Checked, reading: str, joint: str = "", *, predict: bool = False) -> str:
    """The page of a text; the same text, commit and day give the same bytes. What is predicted is
    there where the text asks for it, and with `predict`."""

    def leads(span: Span) -> str:
        return own_line(checked, span)

    one = checked.chosen(joint)
    predicted = None
    if can_be_asked(checked) and (predict or asked_for(checked)):
        predictions = Predictions(checked, one)
        predictions.work()
        predicted = part(predictions)
    sections = [
        section
        for section in spec_sections(checked, reading, leads, joint=joint, predicted=predicted)
        if section.id != "joints"
    ]
    left_out = f"Joint {one[0]} alone, of {len(checked.joints)}." if one else ""
    head = html(
        spec_head(checked, reading, {}, predicted=predicted is not None),
        tag("p", tag("strong", left_out), class_="notice") if left_out else None,
        _copy(checked),
    )
    foot = "This is a copy: it does not change when the text does."
    return page(
        title_of(checked), head, sections, None, style=file_text("page.css"), foot=foot,
        printed=f"copy of {printed_foot(checked)}",
    )  # fmt: skip


def file_name(checked: Checked, taken: set[str]) -> str:
    """`HT-0147-B.html`, safe on every system and not taken yet."""
    job = checked.case.spec.file.job if checked.case is not None else None
    words = checked.path.replace("\\", "/").rpartition("/")[2].removesuffix(".hts")
    if job is not None and job.number:
        revision = job.revision.name if job.revision is not None else ""
        words = f"{job.number}-{revision}" if revision else job.number
    name = _UNSAFE.sub("-", words).strip(".-")[:80] or "copy"
    free, number = name, 2
    while f"{free}.html".lower() in taken:
        free, number = f"{name}-{number}", number + 1
    taken.add(f"{free}.html".lower())
    return f"{free}.html"


def _copy(checked: Checked) -> Html:
    """How whoever holds the copy finds out whether it is current."""
    if not checked.fingerprint:
        return tag("p", "A copy of a text that could not be read whole.", class_="notice")
    assert checked.case is not None
    name = checked.case.spec.source.name
    ask = f"hts fingerprint {name} --expect {checked.fingerprint}"
    return html(
        tag("p", "A copy. Whether it is current: ", tag("code", ask), class_="notice"),
        _code(f"{title_of(checked)} {checked.fingerprint}"),
    )


def _code(text: str) -> Html:
    """The fingerprint as a code to scan; nothing where the package for it is missing."""
    from hts.paper.sheet import MissingPackage, needed

    try:
        segno = needed("segno", "paper")
    except MissingPackage:
        return Html("")
    svg = segno.make(text, error="m", micro=False).svg_inline(border=2)
    return picture(svg, "Document and fingerprint", {}, "code")
