"""How much is heated at once is what bands, zones and method make of it."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import ROUND
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.heating import Heating

_SOAK = "    soak band      by rule\n"
_HEATING = '  heating by resistance accepted by "Owner\'s engineer" {'


def _said(technique: str, more: str = "") -> tuple[tuple[str, str], ...]:
    return ((_SOAK, f"    technique      {technique}\n{more}{_SOAK}"),)


RULE = Rule(
    "B124",
    "technique-unlike-heating",
    "warning",
    summary="A technique that method, bands and zones contradict: a spot with heaters all round, "
    "several heats without a furnace, bands in a furnace that takes the whole part.",
    why="A spot on a pipe needs other widths than a ring, and in a furnace there are no bands: the "
    "crew lays out what one line says, and the paper judges the other.",
    fix="State the technique the bands and zones are laid out for.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                *_said("local spot"),
                ("kind       girth butt", "kind       repair\n  groove depth 14 mm"),
            ),
            at="local spot",
            says="all round",
        ),
        Bad((("heating by resistance", "heating by furnace"),), at="heated band    by rule"),
        Bad(_said("in several heats"), at="in several heats"),
    ),
    good=(Good(_said("full band")),),
    agrees=(
        Agreement("joint.heating.technique", "joint.heating.zone", "a ring, a spot or no zones"),
        Agreement("joint.heating.technique", "joint.heating.by", "several heats in a furnace"),
        Agreement("joint.heating.by", "joint.heating.heated band", "no bands in a furnace"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or not heating.sound:
        return
    for message, at, others in _contradictions(joint, heating):
        case.add(
            RULE.found(
                message,
                at,
                address=f"{joint.address}/heating",
                others=others,
                basis=RULE.basis,
            )
        )
        return


def _contradictions(joint: Joint, heating: Heating) -> Iterator[tuple[str, Span, list[Label]]]:
    """Each in words, where it stands, and what it contradicts."""
    name, technique = joint.name, heating.technique
    method = Label(heating.place("method"), "the method")
    if heating.method == "furnace":
        if technique in ("full band", "local spot"):
            yield (
                f"{name} is heated in a furnace, and its technique is {technique}",
                heating.place("technique"),
                [method],
            )
        banded = next((b for b in ("heated_band", "soak_band") if getattr(heating, b)), None)
        in_turns = heating.furnace is not None and heating.furnace.overlap is not None
        if banded is not None and technique != "in several heats" and not in_turns:
            yield (
                f"{name} is heated in a furnace, which has no {banded.replace('_', ' ')}",
                heating.place(banded),
                [method],
            )
        return
    if technique == "in several heats":
        yield (
            f"{name} is heated in several heats by {heating.method}, and its bands are for one",
            heating.place("technique"),
            [method],
        )
    elif technique == "local spot" and _all_round(joint):
        yield (
            f"{name} is heated as a local spot, and its zones go all round the pipe",
            heating.place("technique"),
            [Label(joint.zones[0].place("name"), "the first zone")],
        )


def _all_round(joint: Joint) -> bool:
    """Whether the zones of a weld that does not itself go round a pipe do so."""
    if joint.entry.kind in ROUND:
        return False
    arcs = [zone.arc for zone in joint.zones]
    return any(zone.entry.all_round for zone in joint.zones) or (
        sum(arc.span for arc in arcs if arc is not None) >= 360
    )
