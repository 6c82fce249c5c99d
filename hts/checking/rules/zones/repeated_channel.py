"""One channel carries one thermocouple."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint, Thermocouple

RULE = Rule(
    "Z110",
    "repeated-channel",
    "error",
    floor="error",
    summary="A channel of a recorder or controller used for two thermocouples at the same time.",
    why="One of the two is not recorded, or drives the wrong heaters.",
    fix="Give each thermocouple its own channel.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((("40 mm downstream    channel 3", "40 mm downstream    channel 2"),), at="2"),
        Bad((("channel 2   control channel 2", "channel 2   control channel 1"),), at="1"),
        Bad((("channel 8\n", "channel 2\n"),), at="2"),
        Bad(
            (
                ("preheat W12 {", "joint W13 like W12 { }\n\npreheat W12, W13 {"),
                ("cycle stress-relief for W12 {", "cycle stress-relief for W12 for W13 together {"),
            ),
            at="1",
            says="9 more",
        ),
    ),
    good=(
        Good(
            (
                ("preheat W12 {", "joint W13 like W12 { }\n\npreheat W12, W13 {"),
                ("cycle stress-relief for W12 {", "cycle stress-relief for W12 for W13 {"),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for what, first, second, field, number in _pairs(joint.thermocouples):
        case.add(
            RULE.found(
                f"{first.tag} and {second.tag} share {what} {number}",
                second.place(field),
                address=second.address,
                others=[Label(first.place(field), "used here")],
            )
        )
    _heated_together(case, joint)


def _heated_together(case: Case, joint: Joint) -> None:
    """Joints heated at the same time share their instruments: told once, at the later joint."""
    for treatment in joint.cycles:
        cycle = treatment.cycle
        if cycle is None or not cycle.together:
            continue
        together = [reference.target for reference in cycle.joints if reference.target is not None]
        for other in together[: together.index(joint)]:
            both = [*other.thermocouples, *joint.thermocouples]
            across = [found for found in _pairs(both) if found[1].joint is not found[2].joint]
            if across:
                what, first, second, field, number = across[0]
                more = f", and {len(across) - 1} more" if len(across) > 1 else ""
                case.add(
                    RULE.found(
                        f"{joint.name} is heated together with {other.name} and shares {what} "
                        f"{number} with it{more}",
                        second.place(field),
                        address=second.address,
                        others=[Label(first.place(field), f"{first.tag} of {other.name}")],
                        help="write `channel offset` in the thermocouples of the later joint",
                    )
                )


def _pairs(
    thermocouples: Iterable[Thermocouple],
) -> Iterator[tuple[str, Thermocouple, Thermocouple, str, int]]:
    """Thermocouples with a channel another has before them."""
    seen: dict[tuple[str, str, int], Thermocouple] = {}
    for tc in thermocouples:
        for what, field, number, named in (
            ("recorder channel", "channel", tc.channel, tc.entry.recorder),
            ("control channel", "control_channel", tc.control_channel, tc.entry.controller),
        ):
            if number is None:
                continue
            key = (what, named.name if named is not None else "", number)
            first = seen.setdefault(key, tc)
            if first is not tc:
                yield what, first, tc, field, number
