"""The owner has accepted that the weld is heated locally."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_BOOK = "us-navy-s9074"
_GOVERNED = ("asme-b31.3 edition 2018,", "us-navy-s9074 edition 1995, asme-b31.3 edition 2018,")
_SLOWER = (
    ("715 degC   at most 200 degC/h", "715 degC   at most 100 degC/h"),
    ("cool  to 315 degC   at most 200 degC/h", "cool  to 315 degC   at most 100 degC/h"),
)
_GROUP = (
    '  grade        "A335 P22"',
    '  grade        "A335 P22"\n  s-group      S-4\n  condition    annealed',
)
_WHOLE = "resistance {\n    technique whole part"
_ACCEPTED = ('resistance accepted by "Owner\'s engineer" {', "resistance {")

RULE = Rule(
    "D106",
    "local-heating-not-accepted",
    "error",
    summary="Local heating under a book that wants the owner's acceptance, without it.",
    why="The owner may want a furnace, and finds out when the work is done.",
    fix="Have it accepted and write who did: `heating by resistance accepted by \"Owner's "
    'engineer"`.',
    source="US Navy S9074-AR-GIB-010/278 (1995): local post-weld heat treatment is accepted "
    "beforehand",
    basis="published",
    bad=(Bad((_GOVERNED, *_SLOWER, _GROUP, _ACCEPTED), at="resistance"),),
    good=(
        Good((_ACCEPTED,)),
        Good(
            (
                _GOVERNED,
                *_SLOWER,
                _GROUP,
                ('resistance accepted by "Owner\'s engineer" {', _WHOLE),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.method in (None, "furnace") or heating.accepted is not None:
        return
    if heating.technique == "whole part":
        return
    if not treated(joint) or all(authority.name != _BOOK for authority in case.authorities):
        return
    case.add(
        RULE.found(
            f"{joint.name} is heated by {heating.method}; nothing says that the owner accepts it",
            heating.place("method"),
            address=f"{joint.address}/heating",
        )
    )
