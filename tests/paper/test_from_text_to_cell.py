"""Figures from a text to the cells they are printed in, each worked by hand beside the check.

What stands between, `job.json` above all, is not looked at: a slip in any layer shows here.
"""

import csv
import io
import re
from functools import cache
from typing import Any

import openpyxl
import pytest

from hts.checking.rules.examples import BUTT
from hts.job.compiler import Job
from hts.job.compiler.changes import BAND, STEP, Changes
from hts.job.outputs import files as tables
from hts.paper import workbook
from hts.paper.packet.groups import subjects
from hts.paper.packet.packet_files import pages
from tests.paper.packet.jobs import of_text
from tests.paper.packet.test_words import strings

#: 12 in pipe, 323.8 mm by 25.4 mm, cap of 30 mm. A width in total and one on each side; two rates
#: of heating, two of cooling, two holds; two qualifications, and a treatment before.
STATED = (
    BUTT.replace("soak band      by rule", "soak band      100 mm total")
    .replace("heated band    by rule", "heated band    330 mm each side")
    .replace("  heat  to 715 degC   at most 200 degC/h\n",
             "  heat  to 515 degC   at most 200 degC/h\n"
             "  heat  to 715 degC   at most 150 degC/h\n")
    .replace("  hold  700 .. 730 degC for 2 h\n",
             "  hold  700 .. 730 degC for 2 h at most 3 h\n"
             "  cool  to 650 degC   at most 100 degC/h\n"
             "  hold  640 .. 660 degC for 1 h\n")
    .replace('  qualified  "PQR-31" hold 8 h condition below lower critical\n',
             '  qualified  "PQR-31" hold 8 h condition below lower critical\n'
             '  qualified  "PQR-32" hold 6 h condition below lower critical\n'
             '  already heated  90 min at 700 degC "Shop heat treatment"\n')
    .replace("thickness 50 mm layers 2", "thickness 50 mm layers 2 resistance 0.5 m2K/W")
)  # fmt: skip
Rows = list[list[str]]


@cache
def job(text: str) -> Job:
    return of_text(text)


@cache
def sheets(text: str) -> dict[str, str]:
    return {name: data.decode() for name, data in tables(job(text)).items()}


def in_markdown(text: str, first: str, file: str = "setpoints.md") -> Rows:
    """The rows of all tables whose first cell begins so."""
    lines = (line.strip("| ").split(" | ") for line in sheets(text)[file].splitlines())
    return [[cell.strip() for cell in line] for line in lines if line[0].strip() == first]


def in_csv(text: str, file: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(sheets(text)[file])))


@cache
def packet(text: str) -> tuple[dict[str, Any], ...]:
    """All that is printed in the packet of the joint."""
    (subject,) = subjects(job(text))
    return tuple(
        block
        for group in pages(subject)["groups"]
        for part in ({"blocks": group["front"]}, *group["parts"])
        for block in _with_columns(part["blocks"])
    )


def _with_columns(blocks: list[dict[str, Any]]) -> list[dict[str, Any]]:
    found = []
    for block in blocks:
        beside = block["columns"] if block["kind"] == "columns" else [block.get("beside", ())]
        found += [block, *(one for column in beside for one in column)]
    return found


def in_packet(text: str, first: str) -> Rows:
    """The rows of its tables and forms whose first cell is this, blanks as on a keyboard."""
    rows = [row["cells"] for block in packet(text) for row in block.get("rows", ())]
    told = [["".join(strings([cell])).replace("\xa0", " ") for cell in row] for row in rows]
    return [row for row in told if row[0] == first]


def said(text: str, words: str) -> list[str]:
    """The texts of the packet that hold these words."""
    found = [one.replace("\xa0", " ") for block in packet(text) for one in strings(block)]
    return [one for one in found if words in one]


@cache
def book(text: str) -> Any:
    return openpyxl.load_workbook(io.BytesIO(workbook.files(job(text))[workbook.NAME]))


def in_book(text: str, sheet: str) -> list[dict[str, Any]]:
    heads, *rows = list(book(text)[sheet].iter_rows(min_row=4, values_only=True))
    return [dict(zip(heads, row, strict=True)) for row in rows]


def test_widths_stated_in_total_and_on_each_side() -> None:
    # 100 total is 50 on each side; 100 / 25.4 = 3.937 in, up to 63/16; 50 / 25.4 = 1.969, to 32/16.
    # 330 on each side is 660 in total: 25.984 in to 416/16 = 26; 12.992 to 208/16 = 13.
    # Gradient band by WRC 452: 660 + 4 sqrt((323.8 / 2 - 25.4) x 25.4) = 660 + 4 x 58.881 = 895.52,
    # up to 896 mm and 35.257 in, 565/16; on each side 447.76, up to 448 mm and 17.628 in, 283/16.
    expected = {
        "soak band": ["100 (3 15/16)", "50 (2)"],
        "heated band": ["660 (26)", "330 (13)"],
        "gradient band": ["896 (35 5/16)", "448 (17 11/16)"],
        "preheat width": ["", "75 (3)"],
    }
    for name, (total, each) in expected.items():
        assert in_markdown(STATED, name)[0][1:3] == [total, each]
        assert in_packet(STATED, name)[0][1:3] == [total, each]
        from_centre = in_packet(STATED, f"edge of the {name}")[0][1]
        # The preheat width counts from the edge of a weld of 30 mm: 75 + 15 = 90 mm, 3.543 in.
        assert from_centre == (each if name != "preheat width" else "90 (3 9/16)")
    # From the edge of the weld 15 mm less: 50 - 15 = 35 mm, 1.378 in, up to 23/16.
    assert in_packet(STATED, "edge of the soak band")[0][2] == "35 (1 7/16)"
    derived = {
        (row["Quantity"], row["Bound"]): row["Value"]
        for row in in_book(STATED, "Derivations")
        if row["Quantity"] in expected and row["Bound"] in ("in total", "total", "each side")
    }
    assert {float(v) for (q, b), v in derived.items() if q == "heated band"} == {660.0, 330.0}
    assert {float(v) for (q, b), v in derived.items() if q == "soak band"} == {100.0, 50.0}


def test_widths_by_rule() -> None:
    # Soak band by VIII-1 UW-40(a): 30 + 2 x 25.4 = 80.8, up to 81 mm and 3.181 in, 51/16; on each
    # side 40.4, up to 41 mm and 1.591 in, 26/16.
    assert in_markdown(BUTT, "soak band")[0][1:3] == ["81 (3 3/16)", "41 (1 5/8)"]
    assert in_packet(BUTT, "soak band")[0][1:3] == ["81 (3 3/16)", "41 (1 5/8)"]
    # Heated band by AWS D10.10: the heated outside is five times both wall sections and the inside
    # under the soak band. 5 ((323.8² - 273²) / 2 + 273 x 80.8) / 323.8 = 5 x (15159 + 22058) /
    # 323.8 = 574.7, up to 575; on each side 287.35, up to 288.
    assert in_markdown(BUTT, "heated band")[0][1].startswith("575 (")
    assert in_markdown(BUTT, "heated band")[0][2].startswith("288 (")


def test_two_rates_and_two_holds() -> None:
    # Set rates are 10 % below: 200 -> 180, 150 -> 135, 100 -> 90, 200 -> 180.
    # 315 to 515: 200 / 180 h = 66 min 40 s; 515 to 715: 200 / 135 h = 88 min 53 s; hold 120 min;
    # 715 to 650: 65 / 90 h = 43 min 20 s; hold 60 min; 650 to 315: 335 / 180 h = 111 min 40 s.
    # Whole minutes on a controller; so the steps start at 0, 67, 156, 276, 320, 380 min.
    steps = [
        ("2", "180 (324)", "200 (360)", "1 h 7 min", "0:00", "67", "0"),
        ("3", "135 (243)", "150 (270)", "1 h 29 min", "1:07", "89", "67"),
        ("4", "", "", "2 h", "2:36", "120", "156"),
        ("5", "90 (162)", "100 (180)", "44 min", "4:36", "44", "276"),
        ("6", "", "", "1 h", "5:20", "60", "320"),
        ("7", "180 (324)", "200 (360)", "1 h 52 min", "6:20", "112", "380"),
    ]
    keyed = {row["step"]: row for row in in_csv(STATED, "setpoints.csv") if row["zone"] == "top"}
    days = {row["Step"]: row for row in in_book(STATED, "Setpoints") if row["Zone"] == "top"}
    for number, rate, limit, takes, starts, minutes, begin in steps:
        program, clock = in_markdown(STATED, number)
        assert (program[4], program[5]) == (rate, limit)
        assert (clock[2], clock[3]) == (takes, starts)
        cells = next(row for row in in_packet(STATED, number) if len(row) > 10)
        assert cells[4:6] == [rate, limit] and takes in cells and starts in cells
        assert (keyed[number]["duration [min]"], keyed[number]["start [min]"]) == (minutes, begin)
        first = rate.partition(" ")[0]
        assert keyed[number]["programmed rate [degC/h]"] == first
        assert keyed[number]["programmed rate [degF/h]"] == rate.partition("(")[2].rstrip(")")
        taken = days[int(number)]["Time, h:mm"]
        assert taken.total_seconds() == pytest.approx(int(minutes) * 60, abs=1)
    # 700 .. 730 degC is 1292 .. 1346 degF. Alarms stand inside by the error of the wire, 0.004 of
    # the reading (IEC 60584-1 class 1), and the 1 K of the controller: 730 - 2.92 - 1 = 726.08,
    # down to 726 degC and 1338.8 degF to 1338; 700 + 2.8 + 1 = 703.8, up to 704 and 1299.2 to 1300.
    hold = in_markdown(STATED, "4")[0]
    assert hold[7:12] == ["2 h", "3 h", "700 to 730 (1292 to 1346)", "726 (1338)", "704 (1300)"]
    second = in_markdown(STATED, "6")[0]
    assert second[7:10] == ["1 h", "", "640 to 660 (1184 to 1220)"]


def test_carried_times_and_two_qualifications() -> None:
    log = said(STATED, "earlier time at temperature")
    assert len(log) == 1, "once, with the first hold"
    assert "earlier time at temperature: 90 min at 700 °C (1292 °F)" in log[0]
    assert "qualified by PQR-31 for 8 h" in log[0] and "qualified by PQR-32 for 6 h" in log[0]
    carried = [row for row in in_book(STATED, "Hold log") if row["Treatment"] == "earlier"]
    # 90 min is 1/16 of a day.
    assert [row["Time, h:mm"].total_seconds() for row in carried] == [5400]


def test_arcs_and_millivolts() -> None:
    # Once round pi x 323.8 = 1017.25 mm. 6:00 is half: 508.6 -> 509 mm, 20.02 in -> 320/16.
    # 12:10 is 5 degrees: 14.13 -> 14 mm, 0.556 in -> 9/16; 6:10: 508.6 + 14.13 = 522.75 -> 523.
    # Zones end at 3:00 and 9:00: 254.3 -> 254 and 762.9 -> 763 mm.
    arcs = {"T1": "0 (0)", "T2": "509 (20)", "T1S": "14 (9/16)", "T2S": "523 (20 9/16)"}
    by_tag = {row["tag"]: row for row in in_csv(STATED, "tags.csv")}
    in_sheet = {row["Tag"]: row for row in in_book(STATED, "Thermocouples")}
    for tag, arc in arcs.items():
        assert arc in in_packet(STATED, tag)[0]
        assert arc in in_markdown(STATED, tag, "tags.md")[0]
        whole = arc.partition(" ")[0]
        (name,) = (n for n in by_tag[tag] if n.startswith("arc") and n.endswith("[mm]"))
        assert by_tag[tag][name] == whole
        (head,) = (n for n in in_sheet[tag] if n.startswith("Arc") and n.endswith("mm"))
        assert in_sheet[tag][head] == float(whole)
    assert in_packet(STATED, "top")[0][3:5] == ["763 (30 1/16)", "254 (10)"]
    # Type K (NIST ITS-90 table, from memory): 29.548 mV at 710 degC, 29.965 at 720, so 29.756 at
    # 715; 1.000 at 25 degC; the difference is 28.756. Class 1: 0.004 x 715 = 2.86 K.
    loop = next(row for row in in_packet(STATED, "stress-relief") if row[1] == "715 (1319)")
    assert float(loop[3]) == pytest.approx(28.756, abs=0.002)
    assert loop[4].startswith("2.9 (")
    assert float(by_tag["T1"]["expected at hold [mV]"]) == pytest.approx(28.756, abs=0.002)


def test_power() -> None:
    # Metal pi x 0.0254 x (0.3238 - 0.0254) x 0.660 x 7850 = 123.4 kg; 1008 J/(kg K) at 700 degC
    # (EN 1993-1-2:2005 3.4.1.2, from memory) x 180 K/h / 3600 = 6.22 kW, half of it in each zone.
    zones = [row for row in in_packet(STATED, "top") if len(row) == 7 and "." in row[1]]
    assert [row[1] for row in zones] == ["3.1"]
    # Installed as stated, 9 kW; what is needed to heat is the sum, as rounded.
    stored, blanket, along, heating, holding, installed = map(float, zones[0][1:])
    assert installed == 9.0
    assert heating == pytest.approx(stored + blanket + along, abs=0.16)
    assert holding == pytest.approx(blanket + along, abs=0.16)


def test_a_lowered_hold() -> None:
    """ASME B31.3-2016 Table 331.1.2: 40 K below 595 degC takes 4 h, and 15 min more for each 25 mm
    above 25 mm. 31.8 mm wall: 4 h + 15 min x 6.8 / 25 = 4 h 4.08 min, to the second 4 h 4 min 5 s;
    on a controller of whole minutes 4 h 5 min."""
    text = (
        BUTT.replace("edition 2018", "edition 2016")
        .replace('"A335 P22"', '"A106-B"')
        .replace("C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %, Mo 0.98 %", "C 0.20 %, Mn 0.90 %")
        .replace("wall       25.4 mm", "wall       31.8 mm")
        .replace("purpose             stress relief",
                 'purpose             stress relief\n'
                 '  lower-temperature hold agreed "Design engineer, 2026-09-30"')
        .replace("heat  to 715 degC", "heat  to 570 degC")
        .replace("hold  700 .. 730 degC for 2 h", "hold  555 .. 585 degC for by rule")
    )  # fmt: skip
    (limit,) = in_markdown(text, "hold time")
    assert limit[1].startswith("at least 4 h 5 min")
    (program, _) = in_markdown(text, "3")
    assert re.match(r"4 h (4 min 5 s|5 min)", program[7])
    # Few steps stand side by side in the packet: the hold is the third.
    (turned,) = in_packet(text, "Hold at least")
    assert turned[3] == program[7]


def test_marks_of_change_stand_beside_their_rows() -> None:
    rows = frozenset({("W12", "", BAND, "heated band"), ("W12", "stress-relief", STEP, "3")})
    changed = of_text(STATED)._replace(changes=Changes("HEAD~1", "B", rows, ()))
    text = tables(changed)["setpoints.md"].decode()
    marked = [line for line in text.splitlines() if line.rstrip("| ").endswith(" B")]
    names = [line.strip("| ").split(" | ")[0] for line in marked]
    assert names == ["heated band", "3"]
    (subject,) = subjects(changed)
    beside = [
        "".join(strings([row["cells"][0]])) or "Changed"
        for group in pages(subject)["groups"]
        for part in group["parts"]
        for block in _with_columns(part["blocks"])
        for row in block.get("rows", ())
        if row.get("changed")
    ]
    assert {"heated band", "edge of the heated band", "3"} <= set(beside)


BAKE = """
bake W12 {
  begins              from preheat
  width               160 mm total
  lining              none
  recorded by         R1
  controlled by       C1
  powered by          PS1
  start of control    150 degC
  heat to 320 degC    at most 100 degC/h
  hold 305 .. 340 degC for 2 h
  cool to 80 degC     at most 100 degC/h
  end of control      80 degC
  interrupted hold    starts again
}
"""


@pytest.mark.parametrize(
    "bake, preheat, expected",
    [
        # 160 in total is 80 on each side of the centreline; 81 in total is 40.5, up to 41.
        (BAKE, "81 mm total", {"bake width": ("160", "80"), "preheat width": ("81", "41")}),
        # 75 beside the weld on each side has no total.
        (
            BAKE.replace("160 mm total", "160 mm each side"),
            "75 mm each side",
            {"bake width": ("", "160"), "preheat width": ("", "75")},
        ),
    ],
    ids=["in total", "each side"],
)
def test_widths_of_preheat_and_bake(
    bake: str, preheat: str, expected: dict[str, tuple[str, str]]
) -> None:
    text = BUTT.replace("75 mm each side", preheat) + bake
    for name, (total, each) in expected.items():
        for cells in (in_markdown(text, name)[0], in_packet(text, name)[0]):
            assert (cells[1].partition(" (")[0], cells[2].partition(" (")[0]) == (total, each)


OWN = """
procedure P-99 "Invented for this check" {
  revision    1 on 2026-08-14 status for construction
  prepared    "Welding engineer"
  bake width  at least cap_width + 150 mm total
}
"""


def test_widths_of_preheat_and_bake_by_rule() -> None:
    # The bake of the procedure: 30 + 150 = 180 in total, 90 on each side. The preheat of ASME
    # B31.3-2014 330.1.4: 25 mm beyond the edge of the weld, so 25 + 15 = 40 from its centreline.
    text = (
        BUTT.replace("  width             75 mm each side\n", "").replace(
            "  show  ", "  follows P-99\n  show  "
        )
        + BAKE.replace("  width               160 mm total\n", "")
        + OWN
    )
    for name, total, each in (("bake width", "180", "90"), ("preheat width", "", "25")):
        for cells in (in_markdown(text, name)[0], in_packet(text, name)[0]):
            assert (cells[1].partition(" (")[0], cells[2].partition(" (")[0]) == (total, each)
    assert in_packet(text, "edge of the preheat width")[0][1].startswith("40 (")
