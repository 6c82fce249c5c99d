"""Hardening steel that must not go cold before its treatment is not left to at the end of welding."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.metals import hardens, p_numbers
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.preheat import Preheat

#: Whose martensite cracks within days, cold and with hydrogen in it.
_MARTENSITIC = ("5B", "5C", "15E")
_KEPT = "  when interrupted  cool slowly and preheat again"
_UNTIL = "  keep until        end of welding"
_CHROME = (
    ('grade        "A335 P22"', 'grade        "A335 P5"'),
    ("Cr 2.20 %, Mo 0.98 %", "Cr 5.00 %, Mo 0.50 %"),
    ("  at least          150 degC", "  at least          200 degC"),
    ("  heat  to 715 degC", "  heat  to 725 degC"),
    ("hold  700 .. 730 degC", "hold  710 .. 740 degC"),
)
_HOT = (_KEPT, "  when interrupted  keep hot\n  maintain at least 150 degC")
_PURPOSE = "  purpose             stress relief\n"

RULE = Rule(
    "P142",
    "left-cold-after-welding",
    "warning",
    summary="A weld of hardening steel that is kept hot when welding stops, but let go cold after the "
    "last pass; or one of 9 % chromium for which nobody says how long it may then stand.",
    why="Cold, hard and full of hydrogen, the finished weld cracks before it is heat treated.",
    fix="Keep the preheat until the bake or the heat treatment, bake it, or write `begin within`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (_HOT,),
            at="keep until",
            says="W12 is kept hot when welding stops, and goes cold at the end of welding",
        ),
        Bad(_CHROME, at="keep until", says="nothing limits how long W12 stands cold"),
    ),
    good=(
        Good(
            (
                _HOT,
                (_UNTIL, "  keep until        post-weld heat treatment"),
            )
        ),
        Good((*_CHROME, (_PURPOSE, f"{_PURPOSE}  begin within 24 h\n"))),
        Good((*_CHROME, (_UNTIL, "  keep until        post-weld heat treatment"))),
    ),
    agrees=(
        Agreement("preheat.when interrupted", "preheat.keep until", "hot before, hot after"),
        Agreement("preheat.keep until", "cycle.begin within", "how long 9Cr steel stands cold"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat, cycles = joint.preheat, treated(joint)
    if preheat is None or not preheat.sound or not cycles or joint.bakes or not hardens(joint):
        return
    if preheat.until != "end of welding" or not all(cycle.entry.sound for cycle in cycles):
        return
    if preheat.interrupted == "keep hot":
        _tell(
            case,
            joint,
            preheat,
            f"{joint.name} is kept hot when welding stops, and goes cold at the end of welding",
            [Label(preheat.place("interrupted"), "kept hot")],
        )
        return
    if _may_stand_cold(case, joint, cycles[0]) and _is_martensitic(joint):
        what = f"nothing limits how long {joint.name} stands cold before it is heat treated"
        _tell(case, joint, preheat, what, [Label(cycles[0].place("name"), "its treatment")])


def _is_martensitic(joint: Joint) -> bool:
    return any(number in _MARTENSITIC for number in p_numbers(joint))


def _may_stand_cold(case: Case, joint: Joint, treatment: Treatment) -> bool:
    """Whether nothing says how long the weld may wait for its treatment."""
    cycle = treatment.cycle
    limit = case.limits(joint, treatment).of("delay before heat treatment")
    return (cycle is None or cycle.delay is None) and (limit is None or limit.maximum is None)


def _tell(case: Case, joint: Joint, preheat: Preheat, message: str, others: list[Label]) -> None:
    case.add(
        RULE.found(
            message,
            preheat.place("until"),
            address=f"{joint.address}/preheat",
            others=others,
            basis=RULE.basis,
        )
    )
