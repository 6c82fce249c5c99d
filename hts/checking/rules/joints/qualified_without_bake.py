"""The weld is baked if its test piece was; steel of 5 % chromium and more only where it was."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.metals import p_numbers
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_CONDITION = "condition below lower critical"
#: Steels of which the bake is part of how a weld is made: those of 5 % chromium and more.
_BAKED = ("5B", "5C", "15E")
#: The base as pipe of 5 % chromium.
_P5 = (
    ('grade        "A335 P22"', 'grade        "A335 P5"'),
    ("Cr 2.20 %, Mo 0.98 %", "Cr 5.00 %, Mo 0.50 %"),
    ("applies to p-number  1, 4, 5A", "applies to p-number  1, 4, 5B"),
    ("preheat W12 {\n  at least          150", "preheat W12 {\n  at least          200"),
    ("300 .. 350 degC for 3 h", "300 .. 350 degC for 9 h"),
)

RULE = Rule(
    "J229",
    "qualified-without-bake",
    "warning",
    summary="A qualification whose test piece was baked, for a weld that is not; or of steel of 5 % "
    "chromium and more one that was not, for a weld that is.",
    why="Toughness and freedom from cracks were shown for a weld made the other way: with its hydrogen "
    "in it, or cooled at another moment.",
    fix="Write `baked` where the record says so, or bake as the record does.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_CONDITION, f"{_CONDITION} baked"),),
            at="baked",
            says="the test piece of PQR-31 was baked, and W12 is not",
        ),
        Bad(
            _P5, at="PQR-31", base="bake", says="W12 is baked, and the test piece of PQR-31 was not"
        ),
    ),
    good=(
        Good(((_CONDITION, f"{_CONDITION} baked"),), base="bake"),
        # Of other steels the bake is the owner's care, and no variable of the qualification.
        Good((), base="bake"),
    ),
    agrees=(Agreement("joint.qualified.baked", "bake.joints", "baked as its test piece was"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    records = joint.entry.qualified
    if not records or not joint.sound:
        return
    baked = bool(joint.bakes)
    told = any(record.baked for record in records)
    if told == baked or (baked and not set(_BAKED) & set(p_numbers(joint))):
        return
    record = next((each for each in records if each.baked), records[0])
    if baked:
        message = f"{joint.name} is baked, and the test piece of {record.record} was not"
        at, others = record.place("record"), [Label(joint.bakes[0].place("joints"), "the bake")]
    else:
        message = f"the test piece of {record.record} was baked, and {joint.name} is not"
        at, others = record.place("baked"), []
    case.add(RULE.found(message, at, address=joint.address, others=others, basis=RULE.basis))
