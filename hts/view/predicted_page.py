"""What is predicted inside the wall: a page of its own, for it takes seconds to work out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hts.checking.rules.helpers.predictions import is_asked
from hts.view.checked import Checked
from hts.view.frame import Section
from hts.view.markup import Html, Part, html, items, slug, table, tag
from hts.view.picture import picture
from hts.view.predictions import Predictions

if TYPE_CHECKING:
    from hts.job.compiler.document import Document
    from hts.predict.outlook import Outlook

TITLE = "Predicted inside the wall"
#: Width and height of a picture of the slider, mm.
_PICTURE = (267.0, 150.0)


def sections(predictions: Predictions) -> list[Section]:
    """A part for each treatment, with the field at many instants, shown one by one by the script;
    without it, a strip of a few."""
    found = [
        Section(
            f"predicted-{slug(address)}",
            f"{TITLE}: {address}",
            _told(predictions.checked, why, "h3", slider=True),
        )
        for address, why in list(predictions.found.items())
    ]
    if predictions.refused:
        found.append(Section("predicted-not", TITLE, _refused(predictions.refused)))
    elif not predictions.finished:
        told = "Being worked out: some seconds for each treatment. The page follows by itself."
        found.append(Section("predicted-soon", TITLE, tag("p", told, role="status")))
    elif not predictions.found:
        found.append(
            Section("predicted-not", TITLE, _refused("no treatment has steps to be predicted"))
        )
    return found


def part(predictions: Predictions) -> Html:
    """All of it as one part of a page without script."""
    if predictions.refused:
        return _refused(predictions.refused)
    return html(
        *(
            html(tag("h3", address), _told(predictions.checked, why, "h4", slider=False))
            for address, why in predictions.found.items()
        )
    )


def can_be_asked(checked: Checked) -> bool:
    """Whether the text has a treatment with steps."""
    case = checked.case
    return case is not None and any(
        treatment.entry.segments for joint in case.joints() for treatment in case.treatments(joint)
    )


def asked_for(checked: Checked) -> bool:
    """Whether the text, or a procedure it follows, wants a prediction."""
    case = checked.case
    if case is None or checked.errors:
        return False
    return any(
        treatment.entry.segments and is_asked(case, treatment)
        for joint in case.joints()
        for treatment in case.treatments(joint)
    )


def invitation(checked: Checked, where: str) -> Html:
    """On the page of the text: what there is to ask for, and whether the text wants it."""
    wants = (
        "The specification, or a procedure it follows, wants the temperature inside predicted."
        if asked_for(checked)
        else "Nobody asks for it here; it can be worked out all the same."
    )
    return html(
        tag("p", wants),
        tag("p", tag("a", "Work out the temperature inside the wall and all round", href=where)),
        tag("p", "A prediction is never evidence of what the metal reached.", class_="quiet"),
    )


def _refused(why: str) -> Html:
    return tag("p", f"There is no prediction: {why}.", class_="notice")


def _told(checked: Checked, outlook: Outlook | str, head: str, *, slider: bool) -> Html:
    if isinstance(outlook, str):
        return _refused(outlook)
    from hts.predict.report import summary
    from hts.predict.tables import tables_of
    from hts.predict.told import PREDICTION

    rows = [(name.capitalize(), words) for name, words in summary(outlook)]
    parts: list[Part] = [
        tag("p", tag("strong", PREDICTION), class_="notice"),
        table("Every input as stated; 5 to 95 % in brackets", ("What", "Predicted"), rows),
        _pictures(checked, outlook, slider),
    ]
    for one in tables_of(outlook):
        parts.append(tag(head, one.title))
        if one.rows:
            parts.append(table(one.title, one.heads, one.rows, "titled"))
        parts.append(items(one.below))
    return html(*parts)


def _pictures(checked: Checked, outlook: Outlook, slider: bool) -> Html:
    from hts.job.compiler import CannotCompile
    from hts.job.compiler.document import document
    from hts.paper.sheet import MissingPackage

    assert checked.case is not None
    try:
        named = document(checked.case.spec, checked.case.authorities)
        return _drawn(outlook, named, slider)
    except CannotCompile as error:
        return tag("p", f"Not drawn: {error.reasons[0]}", class_="notice")
    except MissingPackage as error:
        return tag("p", f"Not drawn: {error}", class_="notice")


def _drawn(outlook: Outlook, named: Document, slider: bool) -> Html:
    from hts.paper.predicted.picture_files import SIZE, VIEWS

    views = {
        what: picture(draw(outlook, named, SIZE), _called(outlook, what), {})
        for what, draw in VIEWS
        if not (slider and what == "section")
    }
    strip = views.pop("stages")
    if not slider:
        return html(strip, *views.values())
    return html(_slider(outlook, named), tag("div", strip, data_strip=True), *views.values())


def _called(outlook: Outlook, what: str) -> str:
    setting = outlook.setting
    return f"{setting.joint} {setting.treatment}, predicted: {what}"


def _slider(outlook: Outlook, named: Document) -> Html:
    """The wall at many instants, hidden until the script shows one: it takes the strip's place."""
    from hts.paper.drawings.axes import time_text
    from hts.paper.predicted.field_views import section_at

    course, setting = outlook.course, outlook.setting
    name = f"moment-{slug(setting.joint)}-{slug(setting.treatment)}"
    frames: list[Html] = []
    first = 0
    for index in course.moments:
        words = (
            f"{time_text(float(course.seconds[index]))} h: setpoint {course.setpoint[index]:.0f}, "
            f"soak band {course.coldest[index]:.0f} to {course.hottest[index]:.0f} °C, "
            f"{course.power[index].sum() / 1000:.1f} kW in all"
        )
        if index == course.hold_end:
            first = len(frames)
        drawn = picture(section_at(outlook, named, _PICTURE, index), words, {})
        frames.append(tag("div", drawn, hidden=True, data_moment=words))
    control = tag(
        "p",
        tag("label", "Time: move the slider, or use the arrow keys", for_=name),
        tag("input", type="range", id=name, min="0", max=str(len(frames) - 1), value=str(first),
            step="1"),
    )  # fmt: skip
    return tag("div", control, *frames, hidden=True, data_moments=True, class_="moments")
