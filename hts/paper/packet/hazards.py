"""What can hurt at this weld, each with its sign; only what this work has."""

from __future__ import annotations

import re

from hts.job.compiler.job import JointSheet
from hts.job.outputs import cautions
from hts.paper.packet import letters, signs
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages

#: Grades that a caution of a procedure may be about, by the P-numbers of ASME IX.
_ABOUT = (
    (re.compile(r"\b(?:grade 91|[PTF]91|15E)\b", re.IGNORECASE), "15E"),
    (re.compile(r"\b(?:grade 22|[PTF]22|5A)\b", re.IGNORECASE), "5A"),
    (re.compile(r"\b(?:grade 11|[PTF]11)\b", re.IGNORECASE), "4"),
)


def write(page: Pages, subject: Subject) -> None:
    """Signs with their cautions, then those of the text, and who answers for the paper."""
    page.heading(3, "What can hurt")
    room = page.room / 2 - signs.SIZE - 8
    page.add_signs(
        [
            (signs.svg(sign), letters.pieces(text, room, 7.6))
            for sign, text in cautions.usual(subject.sheets)
        ]
    )
    own = [
        text
        for text in cautions.own_cautions(subject.job._replace(joints=subject.sheets), books=False)
        if _concerns(text, subject.sheets)
    ]
    if own:
        page.line("For this work:")
        page.bullets(own)
    page.bullets(cautions.APPROVAL)


def _concerns(text: str, sheets: tuple[JointSheet, ...]) -> bool:
    """Whether a caution may be about these joints: not where it names steels they are not of."""
    numbers = {number for pattern, number in _ABOUT if pattern.search(text)}
    ours = {
        str(figure.value)
        for sheet in sheets
        for side in sheet.joint.sides
        if (figure := side.figure("p_number")) is not None
    }
    return not numbers or not ours or bool(numbers & ours)
