"""The files of a compiled job: whole, readable by machines, and the same every time."""

import csv
import io
import json
import re
from itertools import pairwise
from pathlib import Path

import jsonschema
import pytest
import thermocouple_its90

from hts.base.quantities import TIME, Quantity
from hts.checking.rules.examples import BUTT
from hts.job.compiler import compile_spec
from hts.job.outputs import files
from hts.job.outputs.job_files import NAMES, TABLES
from hts.language.model import Loader, Spec
from tests.rows import each_row
from tests.texts import spec_of

ROOT = Path(__file__).parents[3]
HOSTILE = '=HYPERLINK(1) | `x` <b>\N{RIGHT-TO-LEFT OVERRIDE} [y](http://tern.example) \\" @'

PREHEAT_ONLY = """\
spec 1

job "Tern Island (invented): preheat" {
  number "PH-1"
  revision A on 2026-10-02 status for review
  governed by asme-b31.3 edition 2018
  show US
  signed { prepared "Heat-treatment engineer" }
}

material pipe { grade "A335 P22" }

joint W1 {
  kind girth butt
  between pipe and pipe
  pipe NPS 6 schedule 80
}

preheat W1 {
  at least 300 degF
  interpass at most 600 degF
  width 3 in each side
  method induction
}
"""


def made(text: str = BUTT, every: str = "5 min") -> dict[str, str]:
    spec = spec_of(text, "x.hts")
    errors = [f for f in spec.findings if f.severity == "error"]
    # Paper is safe even where a hidden character is not refused before.
    assert [f.message for f in errors if f.kind.name != "hidden-character"] == []
    job = compile_spec(spec, Quantity.read(every, TIME))
    return {name: data.decode() for name, data in files(job).items()}


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def tables(page: str) -> list[list[list[str]]]:
    """The tables of a page, cells unescaped as far as these tests need it."""
    found: list[list[list[str]]] = []
    inside = False
    for line in page.split("\n"):
        if not line.startswith("|"):
            inside = False
            continue
        if not inside:
            found.append([])
            inside = True
        cells = re.split(r"(?<!\\)(?:\\\\)*\|", line)[1:-1]
        found[-1].append([cell.strip() for cell in cells])
    return found


def test_all_files_and_their_order() -> None:
    assert tuple(made()) == NAMES


def test_which_files_are_tables_for_people() -> None:
    assert {*NAMES} - {*TABLES} == {"job.json"} and len(TABLES) == 5


def test_headings_go_down_by_one_level_at_a_time() -> None:
    """So that a screen reader, and whoever makes another paper of the sheet, finds all parts."""
    for name in ("setpoints.md", "tags.md"):
        levels = [len(marks) for marks in re.findall(r"^(#+) ", made()[name], re.MULTILINE)]
        assert levels[0] == 1 and levels.count(1) == 1 and max(levels) >= 3
        assert all(after <= before + 1 for before, after in pairwise(levels)), name


def test_every_row_has_the_columns_of_the_heading_and_names_the_document() -> None:
    files = made()
    for name in ("setpoints.csv", "schedule.csv", "tags.csv"):
        heads, *body = csv.reader(io.StringIO(files[name], newline=""))
        assert len(heads) == len(set(heads))
        assert body and all(len(row) == len(heads) for row in body)
        assert heads[-5:] == ["document", "revision", "status", "fingerprint", "compiled by"]
        assert {tuple(row[-5:-2]) for row in body} == {("HT-0001", "A", "for construction")}
    for name in ("setpoints.md", "tags.md"):
        for table in tables(files[name]):
            assert {len(row) for row in table} == {len(table[0])}
        for said in ("HT-0001", "for construction", "hts 0.1.0"):
            assert said in files[name]


def test_fingerprint_is_the_same_on_every_paper() -> None:
    files = made()
    prints = {
        re.search(r"[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}", text).group()  # type: ignore[union-attr]
        for text in files.values()
    }
    assert len(prints) == 1


def test_setpoints_row_for_each_zone_and_step() -> None:
    body = rows(made()["setpoints.csv"])
    cycle = [row for row in body if row["cycle"] == "stress-relief"]
    assert [(row["zone"], row["step"]) for row in cycle] == [
        (zone, str(step)) for zone in ("top", "bottom") for step in range(1, 6)
    ]
    heat, hold = cycle[1], cycle[2]
    # 400 K at 180 K/h is 133.33 min, up to 134; 700 degC is 1292 degF, 730 degC 1346 degF.
    assert heat["programmed rate [degC/h]"] == "180" and heat["duration [min]"] == "134"
    assert heat["to [degC]"] == "715" and heat["to [degF]"] == "1319"
    assert hold["hold range from [degF]"] == "1292" and hold["hold range to [degF]"] == "1346"
    assert hold["duration [min]"] == "120"
    # Inside the range by the error of a reading: see tests/job/compiler/test_program.py.
    assert (hold["alarm above [degC]"], hold["alarm below [degC]"]) == ("726", "704")
    assert cycle[0]["programmed rate [degC/h]"] == "free"
    assert heat["control thermocouple"] == "T1" and heat["controller channel"] == "1"


def test_tags_row_for_each_thermocouple() -> None:
    files = made()
    body = {row["tag"]: row for row in rows(files["tags.csv"])}
    assert list(body) == ["T1", "T2", "T1S", "T2S", "T3", "T4", "T5", "T6"]
    # pi * 323.8 / 2 = 508.62 mm, 20.02 in.
    assert body["T2"]["arc along the outside from 12:00 clockwise [mm]"] == "509"
    assert body["T2"]["arc along the outside from 12:00 clockwise [in]"] == "20.02"
    # An implementation of the NIST ITS-90 reference functions of its own, 715 less 25 degC.
    couple = thermocouple_its90.get("K")
    expected = couple.emf(715.0) - couple.emf(25.0)
    assert float(body["T2"]["expected at hold [mV]"]) == pytest.approx(expected, abs=0.0006)
    # IEC 60584-1: 0.004 of 715 is 2.86 K, shown no smaller.
    assert body["T2"]["limit of error at hold +/- [K]"] == "2.9"
    placed = tables(files["tags.md"])[1]
    assert [row[0] for row in placed[2:]] == list(body)
    assert "looking with the flow" in files["tags.md"]


def test_schedule_has_the_interval_asked_for() -> None:
    body = rows(made(every="30 min")["schedule.csv"])
    elapsed = [row["elapsed [min]"] for row in body if row["cycle"] == "stress-relief"]
    assert elapsed[:6] == ["0", "0", "30", "60", "90", "120"]


@each_row(
    ("show", "units"),
    [
        ("SI", ["[degC]"]),
        ("US", ["[degF]"]),
        ("SI and US", ["[degC]", "[degF]"]),
        ("US and SI", ["[degF]", "[degC]"]),
    ],
)
def test_units_are_those_of_show(show: str, units: list[str]) -> None:
    text = BUTT.replace("show         SI and US", f"show         {show}")
    heads = made(text)["setpoints.csv"].split("\r\n")[0].split(",")
    assert [head for head in heads if head.startswith("to ")] == [f"to {unit}" for unit in units]


def test_units_are_si_where_nothing_is_said() -> None:
    heads = made(BUTT.replace("  show         SI and US\n", ""))["setpoints.csv"]
    assert "to [degC]" in heads and "degF" not in heads


def test_margin_of_this_program_is_said_to_be_one() -> None:
    page = made(BUTT.replace("  rate margin         10 %\n", ""))["setpoints.md"]
    assert "10 %‡ below the limits: default of this program" in page
    assert "‡ common practice or an assumption" in page


def test_values_from_memory_are_marked() -> None:
    page = made()["setpoints.md"]
    # The width of the heated band rests on a formula recalled (local-heating).
    assert "| 288 (11 3/8)† |" in page
    assert "† from memory of the source named" in page


def test_free_steps_are_explained() -> None:
    assert "no rate limit is in force" in made()["setpoints.md"]


def test_cautions_end_every_sheet() -> None:
    files = made()
    for name in ("setpoints.md", "tags.md"):
        end = files[name].split("## Cautions")[1]
        for word in (
            "800 °C",
            "Electric shock",
            "eye protection",
            "Fibres",
            "Fire",
            "Confined",
            "bend",
            "responsible person",
            "purchaser",
        ):
            assert word in end


def test_preheat_only_gives_tables() -> None:
    files = made(PREHEAT_ONLY)
    # There is no thermocouple, so there is no table of them.
    assert "tags.csv" not in files
    assert "No thermocouples are specified" in files["tags.md"]
    # No controller is named: it is kept by hand, and nothing is keyed in.
    assert "setpoints.csv" not in files and "schedule.csv" not in files
    page = files["setpoints.md"]
    assert "No controller program belongs to it" in page
    assert "| At least, before every pass | 300 °F |" in page
    assert "| Interpass at most | 600 °F |" in page
    assert "preheat width" in files["setpoints.md"]
    assert "Induction" in files["setpoints.md"]
    # Not issued for work.
    assert "not released for work" in files["setpoints.md"]


def test_view_that_is_not_stated_is_a_caution() -> None:
    assert "CAUTION" in made(BUTT.replace("  viewed     with flow\n", ""))["tags.md"]


def test_a_controller_is_told_what_to_set_in_its_own_unit() -> None:
    text = BUTT.replace("show         SI and US", "show         SI").replace(
        "  segments           16\n", "  segments           16\n  unit degF\n"
    )
    files = made(text)
    assert "From, °F (°C)" in files["setpoints.md"]
    # 715 degC is 1319 degF; 200 degC/h less 10 % is 324 degF/h.
    assert "| 1319 (715) | 324 (180) |" in files["setpoints.md"]
    row = next(one for one in rows(files["setpoints.csv"]) if one["action"] == "hold")
    assert row["set in"] == "degF" and row["to [degF]"] == "1319"


def test_joint_without_thermocouples_has_no_tags() -> None:
    text = BUTT + PREHEAT_ONLY[PREHEAT_ONLY.index("joint W1 ") :]
    files = made(text)
    assert {row["joint"] for row in rows(files["tags.csv"])} == {"W12"}
    assert "Joint W1\n" not in files["tags.md"]
    assert {row["joint"] for row in rows(files["setpoints.csv"])} == {"W12"}


def test_hostile_text() -> None:
    text = (
        BUTT.replace('"Tern Island (invented): header butt"', f'"{HOSTILE}"')
        .replace('"HT-0001"', '"=1+1"')
        .replace(
            "preheat W12 {",
            f"""before heat W12 {{
  caution "{HOSTILE}"
}}

preheat W12 {{""",
        )
    )
    files = made(text)
    for name, content in files.items():
        if name.endswith(".csv"):
            for row in csv.reader(io.StringIO(content, newline="")):
                assert not any(cell.startswith(("=", "+", "@")) for cell in row)
                assert not any(
                    cell.startswith("-") and not re.fullmatch(r"-[\d.]+", cell) for cell in row
                )
            assert "'=1+1" in content
        if name.endswith(".md"):
            assert r"\| \`x\` \<b\>\<U+202E\> \[y\](http\://tern.example)" in content
            for table in tables(content):
                assert {len(row) for row in table} == {len(table[0])}
        assert "\N{RIGHT-TO-LEFT OVERRIDE}" not in content
    # In JSON the text is data and stays what it is.
    assert json.loads(files["job.json"])["document"]["title"].startswith("=HYPERLINK(1)")


def test_job_json_meets_the_schema() -> None:
    schema = json.loads((ROOT / "grammar" / "spec.schema.json").read_text(encoding="utf-8"))
    for text in (BUTT, PREHEAT_ONLY):
        job = json.loads(made(text)["job.json"])
        jsonschema.Draft202012Validator(schema).validate(job)
        assert job["spec"]["job"]["number"] == job["document"]["number"]


def test_job_json_has_every_reason() -> None:
    joint = json.loads(made()["job.json"])["joints"][0]
    soak = next(one for one in joint["derived"] if one["quantity"] == "soak band")
    assert soak["value"] == {"value": "404/5", "unit": "mm", "shown": "81 mm (3 3/16 in)"}
    assert soak["why"]["numbers"] == "30 mm + 2 × min(25.4 mm, 50 mm)"
    assert soak["stricter_than"]["by"]["value"] == "4/5"
    cycle = joint["treatments"][1]
    assert cycle["program"][1]["rate_why"]["numbers"] == ("200 degC/h × (1 − 10 %) → 180 degC/h")
    assert cycle["proof"]["millivolts_why"]["source"].startswith("NIST ITS-90")
    assert len(cycle["tags"]) == 8


def test_the_same_text_gives_the_same_bytes(tmp_path: Path) -> None:
    found = []
    for folder in ("one", "two/deeper"):
        (tmp_path / folder).mkdir(parents=True)
        path = tmp_path / folder / "job.hts"
        path.write_text(BUTT, encoding="utf-8")
        for root in (tmp_path, path.parent):
            loader = Loader(str(root))
            found.append(files(compile_spec(Spec(loader.read(str(path)), loader))))
    assert all(other == found[0] for other in found)
