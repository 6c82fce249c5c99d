"""What is worked out, shown behind what is written; it is never part of the text."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities.clock import ClockError, ClockPosition, arc_length
from hts.editor.names import joint_of, names_of
from hts.editor.phrase import BY_RULE, CLOCK
from hts.editor.place import Place, Text
from hts.editor.reasons import Reason, reasons_at
from hts.language.model.joint import Joint
from hts.language.vocabulary.types import Width


class Hint(NamedTuple):
    """``label`` is shown behind the ``offset``; ``about`` tells where it comes from."""

    offset: int
    label: str
    about: str = ""


def hints(text: Text, joints: dict[str, Joint], reasons: list[Reason]) -> list[Hint]:
    """The value behind `by rule`, clock positions as lengths, widths of each side in total."""
    found = []
    for place in text.places():
        hint = None
        if place.role == BY_RULE:
            hint = _by_rule(place, reasons)
        elif place.role == CLOCK:
            hint = _along(place, joints)
        elif place.word == "side" and place.field and isinstance(place.field.type, Width):
            hint = _in_total(place)
        if hint is not None:
            found.append(hint)
    return found


def _by_rule(place: Place, reasons: list[Reason]) -> Hint | None:
    """The bound that governs; where joints or bounds differ, each of them."""
    given = reasons_at(place, reasons)
    if not given:
        return None
    shown = dict.fromkeys(
        r.heading.removeprefix(r.quantity).strip().removeprefix("is ") for r in given
    )
    return Hint(place.span.end, f"= {', '.join(shown)}", given[0].text)


def _along(place: Place, joints: dict[str, Joint]) -> Hint | None:
    home = joint_of(place.line)
    joint = (
        next((joints[n] for n in names_of(place.text, home) if n in joints), None) if home else None
    )
    diameter = joint.outside_diameter if joint is not None else None
    if diameter is None:
        return None
    try:
        length = arc_length(diameter, ClockPosition.read(place.word))
    except ClockError:
        return None
    return Hint(
        place.span.end, f"= {round(float(length))} mm", "along the outside from 12:00, clockwise"
    )


def _in_total(place: Place) -> Hint | None:
    value = place.value_span
    if value is None:
        return None
    for each in place.text.places_of(place.line):
        amount = each.quantity
        if amount is not None and value.start <= each.span.start < value.end:
            return Hint(place.span.end, f"= {amount * 2} in total")
    return None
