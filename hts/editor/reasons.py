"""Which of the values the rules give belongs to a place of a text."""

from __future__ import annotations

from typing import NamedTuple

from hts.editor.names import names_of
from hts.editor.outline import chain
from hts.editor.phrase import REFERENCE
from hts.editor.place import Place
from hts.limits import LIMITED

#: Paths of the vocabulary that state a quantity by another name, each without its first step.
_QUANTITIES = {
    "hold": "hold temperature",
    "hold.range": "hold temperature",
    "hold.for": "hold time",
    "hold.at most": "hold time",
    "heat.at most": "heating rate",
    "heat.at least": "heating rate",
    "cool.at most": "cooling rate",
    "cool.at least": "cooling rate",
    "thermocouples.attached.energy": "attachment energy",
    "thermocouples.attached.legs apart": "leg separation",
    "heating.insulation.resistance": "insulation",
    "heating.furnace.overlap": "furnace overlap",
    "begin within": "delay before heat treatment",
}
#: The same in a preheat and in a bake, where the words mean other quantities.
_OF_PREHEAT = {"at least": "preheat", "width": "preheat width", "interpass": "interpass"}
_OF_BAKE = {
    "hold": "bake temperature",
    "hold.range": "bake temperature",
    "hold.for": "bake time",
    "hold.at most": "bake time",
    "width": "bake width",
}


class Reason(NamedTuple):
    """What the rules ask of one quantity: ``text`` is the tree that `hts why` prints."""

    address: str
    quantity: str
    heading: str
    text: str


def quantity_at(place: Place) -> str:
    """The limited quantity that a place states, "" where it states none."""
    first, _, rest = place.path.partition(".")
    steps = rest.split(".")
    own = {"preheat": _OF_PREHEAT, "bake": _OF_BAKE}.get(first, {})
    for words in (rest, steps[0]):
        found = own.get(words) or (_QUANTITIES.get(words) if first != "preheat" else None)
        if found:
            return found
    for words in (*steps[::-1],):
        if words in LIMITED:
            return words
    return ""


def reasons_at(place: Place, reasons: list[Reason]) -> list[Reason]:
    """The reasons that belong to what stands at a place, for every joint it counts for."""
    quantity = quantity_at(place)
    if not quantity or place.path.startswith(("procedure.", "job.")):
        return []
    top = next((line for line in chain(place.line) if line.parent is None), None)
    if top is None:
        return []
    text = place.text
    names = set(names_of(text, top))
    joints = {p.word for p in text.places_of(top) if p.role == REFERENCE and p.names == "joint"}
    found = []
    for reason in reasons:
        if reason.quantity != quantity:
            continue
        steps = reason.address.split("/")
        if steps[0] in names or (steps[0] in joints and (len(steps) < 3 or steps[1] in names)):
            found.append(reason)
    return found
