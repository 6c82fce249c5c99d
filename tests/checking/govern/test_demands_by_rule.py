"""What a procedure demands of values that a job leaves to the rules. The procedure itself sets each
figure, so that it is known: a demand just at it is met, one a step beyond is not."""

from __future__ import annotations

from hts.checking.govern import demanded
from hts.checking.govern.case import Case
from hts.checking.rules.examples import changed
from tests.texts import spec_of

LINES = (
    "  requires monitor soak edge count 2\n"
    "  requires spare for controlling thermocouples within 20 mm\n"
)
JOB = (
    ("  cap width  30 mm", "  cap width  30 mm\n  governing thickness by rule"),
    ("    zone top  ", "    zones by rule\n    zone top  "),
    ("  at least          150 degC", "  at least          by rule"),
    ("at most 315 degC\n  width             75 mm each side", "at most by rule\n  width  by rule"),
    ("  heat  to 315 degC\n  heat  to 715 degC   at most 200 degC/h",
     "  heat  to 715 degC   at most by rule"),
    # Two holds: the first says itself what it is.
    ("  hold  700 .. 730 degC for 2 h\n",
     "  hold  700 .. 730 degC for 5 h\n  hold by rule for by rule\n"),
    ("  cool  to 315 degC   at most 200 degC/h\n  cool  in still air\n",
     "  cool  to 315 degC   at most by rule\n"),
    ("  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm\n"
     "  cooling rate     at most 200 degC/h above 315 degC\n"
     "  hold time        at least 2.5 min/mm * t\n",
     "  heating rate at most 90 degC/h\n  cooling rate at most 120 degC/h\n"
     "  hold time at least 3 h\n"),
    ("  interpass        at most 350 degC\n",
     "  interpass at most 280 degC\n  preheat at least 200 degC\n  preheat width at least 120 mm\n"
     "  soak band at least 300 mm total\n  heated band at least 1600 mm total\n"
     "  gradient band at least 2600 mm total\n  zones at least 3\n"
     "  hold temperature at least 710 degC\n  hold temperature at most 725 degC\n"),
)  # fmt: skip

#: Demand -> what it is not where it is not met, "" where it is.
DEMANDS = {
    "requires heating soak band at least 300 mm total": "",
    "requires heating soak band at least 301 mm total": "300 mm",
    "requires heated band at least 800 mm each side": "",
    "requires heated band at least 801 mm each side": "1600 mm",
    "requires gradient band at most 2600 mm total": "",
    "requires gradient band at most 2599 mm total": "2600 mm",
    "requires heating zones at least 3": "",
    "requires heating zones at least 4": "3",
    "requires joint governing thickness at most 25.4 mm": "",
    "requires joint governing thickness at most 25.3 mm": "25.4 mm",
    "requires preheat at least 200 degC": "",
    "requires preheat at least 201 degC": "200 degC",
    "requires interpass at most 280 degC": "",
    "requires interpass at most 279 degC": "280 degC",
    # 120 mm on each side of the weld, as books and procedures give it, is 240 mm in all.
    "requires preheat width at least 120 mm each side": "",
    "requires preheat width at least 121 mm each side": "240 mm",
    "requires cycle heat at most 90 degC/h": "",
    "requires cycle heat at most 89 degC/h": "90 degC/h",
    "requires cycle cool at most 120 degC/h": "",
    "requires cycle cool at most 119 degC/h": "120 degC/h",
    "requires cycle hold 700 .. 730 degC": "",
    "requires cycle hold 705 .. 730 degC": "700 degC .. 730 degC",
    "requires cycle hold for at least 3 h": "",
    "requires cycle hold for at least 4 h": "3 h",
    "requires heating soak band by rule": "",
    "requires heating insulation thickness by rule": "not `by rule`",
}


def test_what_is_left_to_the_rules_is_what_they_say() -> None:
    lines = "".join(f"  {line}\n" for line in DEMANDS)
    spec = spec_of(changed("procedure", (*JOB, (LINES, lines))))
    assert [finding.message for finding in spec.findings] == []
    case = Case(spec)
    (joint,) = case.joints()
    found = {outcome.said: outcome for outcome in demanded.of_joint(case, joint)}
    told = {line: found[line].why if found[line].verdict == "not met" else "" for line in DEMANDS}
    assert {found[line].verdict for line in DEMANDS} == {"met", "not met"}
    wrong = {
        line: told[line] for line, is_ in DEMANDS.items()
        if bool(is_) != bool(told[line]) or f"it is {is_}" not in f"{told[line]}it is "
    }  # fmt: skip
    assert wrong == {}
