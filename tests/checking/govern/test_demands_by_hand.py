"""What a procedure demands: of values that a job leaves to the rules, where the procedure itself
sets each figure, so that it is known (a demand just at it is met, one a step beyond is not); of
whom it is asked; and for which joints a procedure is."""

from __future__ import annotations

import re

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern import demanded
from hts.checking.govern.applying import applying
from hts.checking.govern.case import Case
from hts.checking.rules.examples import BASES, BUTT, changed
from hts.syntax.formula import Fact
from tests.rows import each_row
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
    # Of an analysis, the element that is asked for.
    "requires material composition Mn at most 0.45 %": "",
    "requires material composition Mn at most 0.44 %": "0.45 %, not at most 0.44 %",
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


#: What is done to a joint, by changes to the header butt, or the base that preheats alone.
DONE = {
    "all": BUTT,
    "preheat": BASES["preheat"],
    "cycle": re.sub(r"preheat W12 \{.*?\n\}\n", "", BUTT, flags=re.DOTALL),
    "furnace": BUTT.replace("heating by resistance", "heating by furnace"),
    "heated": re.sub(r"cycle stress-relief for .*?\n\}\n", "", BUTT, flags=re.DOTALL),
}
#: Of whom each is asked: y met, n not met, - not asked. A bake is asked of what is preheated and
#: treated, how something is done of those it is done to, edges of bands not in a furnace, power
#: of what is treated, instruments of what is heated at all, the rest of every joint.
ASKED = """
requires bake                                      | n - - n -
requires cycle                                     | y n y y n
requires preheat                                   | y y n y y
requires recorder interval at most 60 s            | y n y y n
requires power source output at least 50 kVA       | y - y y -
requires power source output at least 66 kVA       | n - n n -
requires controller channels at least 7            | n n n n n
requires monitor soak edge count 2                 | y - y - -
requires monitor weld                              | n - n n -
requires heating insulation layers at least 2      | y - y y y
requires heating shelter wind screen               | n - n n n
requires joint expansion free                      | y n y y y
requires after heat hardness weld at most 241 HBW  | n n n n n
requires cycle sensor break upscale                | y - y y -
requires preheat method gas                        | n y - n n
requires control at 12:00                          | y - y y -
requires control at 12:30                          | y - y y -
requires control at 12:31                          | n - n n -
requires filler diffusible hydrogen at most 5 ml/100g | n n n n n
"""


@each_row("done", DONE)
def test_of_whom_a_demand_is_asked(done: str) -> None:
    rows = [row.split(" | ") for row in ASKED.strip().splitlines()]
    lines = [row[0].strip() for row in rows]
    text = DONE[done].replace("local-heating\n", "local-heating\n  follows P-9\n", 1)
    text += "\nprocedure P-9 {\n  revision 1 on 2026-03-01 status for construction\n"
    spec = spec_of(text + "".join(f"  {line}\n" for line in lines) + "}\n")
    assert [finding.message for finding in spec.findings] == []
    case = Case(spec)
    (joint,) = case.joints()
    found = {outcome.said: outcome.verdict for outcome in demanded.of_joint(case, joint)}
    of = list(DONE).index(done)
    wanted = {line: row[1].split()[of] for line, row in zip(lines, rows, strict=True)}
    assert {line: {"met": "y", "not met": "n"}.get(found.get(line, ""), "-") for line in lines} == (
        wanted
    )


@each_row(
    ("sides", "applies"),
    [
        # P-number 4 or 5A and at most 75 mm of wall: on any side; open where a side may be.
        ([("5A", "25 mm")], True), ([("1", "25 mm"), ("5A", "25 mm")], True),
        ([("1", "25 mm")], False), ([("5A", "75.1 mm")], False), ([("5A", "75 mm")], True),
        ([("5A", None)], None), ([("1", None)], False), ([(None, None)], None),
        ([("1", "25 mm"), ("5A", None)], None), ([("1", "80 mm"), (None, "80 mm")], False),
        ([(None, "80 mm"), (None, "25 mm")], None), ([("1", None), ("4", "10 mm")], True),
    ],
)  # fmt: skip
def test_whether_a_procedure_is_for_a_joint(
    sides: list[tuple[str | None, str | None]], applies: bool | None
) -> None:
    lines = "  applies to p-number 4, 5A\n  applies to wall at most 75 mm\n"
    spec = spec_of(f"spec 1\nprocedure P-1 {{\n  revision 1 on 2026-01-01\n{lines}}}\n")
    facts: list[dict[str, Fact]] = []
    for number, wall in sides:
        side: dict[str, Fact] = {} if number is None else {"p_number": number}
        facts.append(
            side if wall is None else {**side, "thicker_wall": Quantity.read(wall, LENGTH)}
        )
    assert applying(spec.procedures[0], facts) is applies
