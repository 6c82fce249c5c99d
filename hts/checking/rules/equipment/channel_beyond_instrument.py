"""A channel is one the instrument has."""

from __future__ import annotations

from typing import Any

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Joint, Thermocouple
from hts.language.vocabulary.types import Reference

RULE = Rule(
    "E101",
    "channel-beyond-instrument",
    "error",
    floor="error",
    summary="A channel number the recorder or controller does not have.",
    why="The thermocouple ends up on another channel, or on none.",
    fix="Use a channel the instrument has, or another instrument.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("40 mm downstream    channel 3", "40 mm downstream    channel 13"),),
            at="13",
            says="has 12",
        ),
        Bad(
            (("channel 2   control channel 2", "channel 2   control channel 7"),),
            at="7",
            says="has 6",
        ),
        # Several at once: another instrument was meant, and it is told where this one is chosen.
        Bad(
            (
                ("40 mm upstream      channel 4", "40 mm upstream      channel 14"),
                ("40 mm downstream    channel 3", "40 mm downstream    channel 13"),
            ),
            at="R1",
            says="12 channels … none for T3, T4",
        ),
    ),
    edges=(
        Edge(
            (("40 mm downstream    channel 3", "40 mm downstream    channel {}"),),
            keeps="12",
            breaks="13",
            says="has 12",
        ),
        Edge(
            (("channel 2   control channel 2", "channel 2   control channel {}"),),
            keeps="6",
            breaks="7",
            says="has 6",
        ),
    ),
    good=(Good((("40 mm downstream    channel 3", "40 mm downstream    channel 12"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    beyond: dict[tuple[str, int], list[tuple[Thermocouple, Any, int]]] = {}
    for tc in joint.thermocouples:
        for field, number, own, kind in (
            ("channel", tc.channel, tc.entry.recorder, "recorder"),
            ("control_channel", tc.control_channel, tc.entry.controller, "controller"),
        ):
            for instrument in _instruments(joint, own, kind):
                channels = instrument.channels
                if channels is None or number is None or not isinstance(channels.count, int):
                    continue
                if not 1 <= number <= channels.count:
                    key = field if own is None else f"{field} of {tc.tag}"
                    found = beyond.setdefault((key, id(instrument)), [])
                    found.append((tc, instrument, number))
    for (field, _), found in beyond.items():
        _tell(case, joint, field, found)


def _tell(case: Case, joint: Joint, key: str, found: list[tuple[Thermocouple, Any, int]]) -> None:
    field = key.split(" ")[0]
    _, instrument, _ = found[0]
    its = Label(instrument.channels.place("count"), "its channels")
    count = instrument.channels.count
    chosen = _choice(joint, instrument, field)
    if len(found) > 1 and chosen is not None:
        # Several lines do not slip together: it is another instrument that was meant.
        tags = ", ".join(tc.tag for tc, _, _ in found)
        case.add(
            RULE.found(
                f"{instrument.name} has {count} channels, and none for {tags}",
                chosen,
                address=joint.address,
                others=[its, *(Label(tc.place(field), f"on channel {n}") for tc, _, n in found)],
            )
        )
        return
    for tc, _, number in found:
        case.add(
            RULE.found(
                f"{tc.tag} is on channel {number}, {instrument.name} has {count}",
                tc.place(field),
                address=tc.address,
                others=[its],
            )
        )


def _choice(joint: Joint, instrument: Any, field: str) -> Span | None:
    """Where the instrument is first chosen for the joint."""
    said = "recorded_by" if field == "channel" else "controlled_by"
    entries = (joint.preheat, *(each.entry for each in (*joint.bakes, *joint.cycles)))
    for entry in entries:
        chosen = getattr(entry, said, None)
        if entry is not None and chosen is not None and chosen.target is instrument:
            return entry.place(said)
    return None


def _instruments(joint: Joint, own: Reference | None, kind: str) -> list[Any]:
    """The instruments a thermocouple is connected to: the one it names for itself, else those of
    preheat, bakes and cycles, each once."""
    if own is not None:
        return [own.target] if own.target is not None else []
    said = "recorded_by" if kind == "recorder" else "controlled_by"
    preheat = getattr(joint.preheat, said, None)
    found = [preheat.target] if preheat is not None else []
    found += [getattr(treatment, kind) for treatment in (*joint.bakes, *joint.cycles)]
    return list({id(one): one for one in found if one is not None}.values())
