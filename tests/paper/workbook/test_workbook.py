"""The workbook: read back by another program's reader, and compared with the job."""

import datetime
import io
import json
import re
import zipfile
from functools import cache
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from hts.checking.rules.examples import BUTT
from hts.job.compiler import Job, compile_spec
from hts.job.outputs import files as tables
from hts.paper.sheet import A4, LETTER
from hts.paper.workbook import NAME, files
from hts.paper.workbook.cells import DATED
from tests.jobs import job_at
from tests.rows import each_row
from tests.sampling import whose_turn
from tests.texts import spec_of

ROOT = Path(__file__).parents[3]
#: Without the weld list: its 120 welds are of four shapes, and each would be looked at.
GOOD = sorted(p for p in (ROOT / "specs").glob("*.hts") if p.stem != "turnaround-list")
SHEETS = [
    "Document",
    "Setpoints",
    "Schedule",
    "Thermocouples",
    "Channels",
    "Checks",
    "Readings",
    "Hold log",
    "Derivations",
]
HEADS = 4
HOSTILE = '=HYPERLINK("http://tern.example") &A <b>\N{RIGHT-TO-LEFT OVERRIDE}\x07'


def of_text(text: str) -> Job:
    return compile_spec(spec_of(text, "x.hts"))


@cache
def written(path: Path) -> bytes:
    return files(job_at(path))[NAME]


def opened(job: Job) -> openpyxl.Workbook:
    return read(files(job)[NAME])


def read(data: bytes, **more: Any) -> openpyxl.Workbook:
    return openpyxl.load_workbook(io.BytesIO(data), **more)


@cache
def of_path(path: Path) -> openpyxl.Workbook:
    """Read, and looked at by several tests."""
    return read(written(path))


@cache
def of_butt() -> openpyxl.Workbook:
    return opened(of_text(BUTT))


def table(book: openpyxl.Workbook, name: str) -> list[dict[str, Any]]:
    """The rows below the headings up to the first empty one."""
    sheet = book[name]
    heads = [cell.value for cell in sheet[HEADS]]
    rows = []
    for row in sheet.iter_rows(min_row=HEADS + 1, values_only=True):
        if row[0] is None:
            break
        rows.append(dict(zip(heads, row, strict=True)))
    return rows


@pytest.mark.parametrize("path", whose_turn(GOOD), ids=lambda path: path.stem)
def test_every_setpoint_tag_channel_and_source_of_the_job_is_in_it(path: Path) -> None:
    job = job_at(path)
    document = json.loads(tables(job)["job.json"])
    book = of_path(path)
    # One sheet of readings for each treatment with a program.
    assert list(dict.fromkeys(name.rstrip(" 0123456789") for name in book.sheetnames)) == [
        name for name in SHEETS if name != "Readings" or "Readings 1" in book.sheetnames
    ]
    setpoints = table(book, "Setpoints")
    found_tags = table(book, "Thermocouples")
    channels = table(book, "Channels")
    wide = "°C" if job.units.systems[0] == "SI" else "°F"
    for joint in document["joints"]:
        for run in joint["treatments"]:
            ours = [
                row
                for row in setpoints
                if (row["Joint"], row["Treatment"]) == (joint["name"], run["name"])
            ]
            assert len(ours) == len(run["program"]) * len(run["zones"])
            for row, step in zip(ours, run["program"], strict=False):
                assert row["Step"] == step["step"] and row["Action"] == step["action"]
                if step["to"] is not None:
                    # The shown text is `705 °C (1301 °F)`: its first number is the cell's.
                    number = float(re.match(r"-?[\d.]+", step["to"]["shown"])[0])
                    assert row[f"To, {wide}"] == pytest.approx(number, abs=0.11)
                why = step["time_why"] if step["action"] == "hold" else step["rate_limit_why"]
                assert not why or why["citation"] in row["Rate or time from"]
            for tag in run["tags"]:
                for kind in ("controller", "recorder"):
                    channel = tag[kind]
                    if channel["channel"] is not None:
                        assert any(
                            row["Instrument"] == (channel["instrument"] or "not named")
                            and row["Kind"] == kind
                            and row["Channel"] == channel["channel"]
                            and row["Tag"] == tag["tag"]
                            for row in channels
                        )
        tagged = {t["tag"] for run in joint["treatments"] for t in run["tags"]}
        assert tagged <= {row["Tag"] for row in found_tags if row["Joint"] == joint["name"]}
    citations = {row["Paragraph"] for row in table(book, "Derivations")}
    assert {
        one["why"]["citation"]
        for joint in document["joints"]
        for one in [*joint["derived"], *(d for r in joint["treatments"] for d in r["derived"])]
        if "citation" in one["why"]
    } <= citations


def test_numbers_are_numbers_and_times_are_times() -> None:
    book = of_butt()
    rows = table(book, "Setpoints")
    row = next(r for r in rows if r["Action"] == "hold" and r["Treatment"] != "preheat")
    assert isinstance(row["To, °C"], int | float)
    # openpyxl reads a cell shown as [h]:mm as a span of time.
    assert isinstance(row["Time, h:mm"], datetime.timedelta)
    steps = [step for run in of_text(BUTT).joints[0].runs for step in run.program.steps]
    hold = next(step for step in steps if step.least is not None)
    assert row["Time, h:mm"].total_seconds() == pytest.approx(float(hold.times.duration), abs=1)


def test_the_ledger_adds_up_and_never_says_zero_is_enough() -> None:
    sheet = of_butt()["Hold log"]
    formulas = {
        cell.coordinate: cell.value
        for row in sheet.iter_rows(min_row=HEADS + 1)
        for cell in row
        if isinstance(cell.value, str) and cell.value.startswith("=")
    }
    lines = {sheet.cell(row, 3).value: row for row in range(HEADS + 1, sheet.max_row + 1)}
    first, last = lines["span 1"], lines["span 6"]
    assert formulas[f"G{lines['in all']}"] == f"=SUM(G{first}:G{last})"
    least = next(row for name, row in lines.items() if name and name.endswith("at least"))
    assert formulas[f"G{lines['still to hold']}"] == f"=MAX(G{least}-G{lines['in all']},0)"
    kept = read(files(of_text(BUTT))[NAME], data_only=True)["Hold log"]
    assert kept.cell(lines["still to hold"], 7).value == kept.cell(least, 7).value


def test_a_moment_needs_its_date_and_an_end_is_later_than_its_beginning() -> None:
    """A time alone is less than a day; 2000-01-01 is day 36526 of a spreadsheet (ECMA-376)."""
    assert (datetime.date(2000, 1, 1) - datetime.date(1899, 12, 30)).days == DATED
    sheet = of_butt()["Hold log"]
    lines = {sheet.cell(row, 3).value: row for row in range(HEADS + 1, sheet.max_row + 1)}
    row = lines["span 1"]
    rules = {str(one.sqref): one for one in sheet.data_validations.dataValidation}
    assert rules[f"E{row}"].formula1 == f"AND(ISNUMBER(E{row}),E{row}>={DATED})"
    assert f"F{row}>E{row}" in rules[f"F{row}"].formula1
    assert {one.type for one in rules.values()} == {"custom"}
    assert '"check dates"' in sheet[f"G{row}"].value


def test_readings_have_a_cell_for_every_tag_that_takes_figures_alone() -> None:
    job = of_text(BUTT)
    sheet = of_butt()["Readings 1"]
    heads = [cell.value for cell in sheet[HEADS]]
    run = next(run for run in job.joints[0].runs if run.program.kind != "preheat")
    wanted = [tag.tag for tag in run.tags if tag.connected and not tag.spare_of]
    assert heads == ["Date, time", "Set", *wanted, "Remarks", "Initials"]
    assert sheet.cell(HEADS + 1, 1).value == "Limits" and sheet.cell(HEADS + 1, 3).value
    kinds = {str(one.sqref): one.type for one in sheet.data_validations.dataValidation}
    assert kinds[f"A{HEADS + 2}"] == "custom" and kinds[f"C{HEADS + 2}"] == "decimal"


def test_every_thermocouple_is_looked_at_before_it_is_covered() -> None:
    kinds = [row["Kind"] for row in table(of_butt(), "Checks")]
    assert kinds.count("every thermocouple before it is covered") > 5


def test_only_cells_to_fill_in_are_unlocked() -> None:
    book = of_butt()
    for sheet in book:
        assert sheet.protection.sheet
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value is not None:
                    assert cell.protection.locked, f"{sheet.title}!{cell.coordinate}"


def test_every_sheet_prints_with_its_headings_and_its_document() -> None:
    for size, code in ((A4, "9"), (LETTER, "1")):
        data = files(of_text(BUTT), size)[NAME]
        for sheet in openpyxl.load_workbook(io.BytesIO(data)):
            assert str(sheet.page_setup.paperSize) == code  # ECMA-376 part 1, 18.3.1.63
            assert sheet.print_title_rows == "$1:$4"
            assert sheet.print_area
            assert sheet.freeze_panes.endswith("5")
            assert "&P of &N" in sheet.oddFooter.center.text.replace("&[Page]", "&P").replace(
                "&[Pages]", "&N"
            )


def test_text_of_a_specification_is_text(tmp_path: Path) -> None:
    for old in re.findall(r'"([^"\n]+)"', BUTT):
        if old.startswith(("A", "P", "E")) and len(old) < 12:
            continue  # grades and numbers that tables are looked up by
        quoted = HOSTILE.replace('"', '\\"').replace("\x07", "")
        text = BUTT.replace(f'"{old}"', f'"{quoted}"', 1)
        spec = spec_of(text, "x.hts")
        if any(finding.severity == "error" for finding in spec.findings):
            continue
        book = opened(compile_spec(spec))
        for sheet in book:
            for row in sheet.iter_rows():
                for cell in row:
                    if sheet.title != "Hold log":
                        assert cell.data_type != "f", f"{sheet.title}!{cell.coordinate}"
                    assert cell.hyperlink is None
                    assert "\N{RIGHT-TO-LEFT OVERRIDE}" not in str(cell.value)


def test_ten_thousand_and_forty_thousand_letters_do_not_break_it() -> None:
    for count in (10_000, 40_000):
        text = re.sub(r'job "[^"]+"', f'job "{"x" * count}"', BUTT, count=1)
        book = opened(of_text(text))
        said = next(row["Says"] for row in table(book, "Document") if row["What"] == "title")
        assert said.startswith("x" * 10_000)


@pytest.mark.parametrize("path", whose_turn(GOOD), ids=lambda path: path.stem)
def test_same_text_same_bytes(path: Path) -> None:
    assert files(job_at(path))[NAME] == written(path)


def test_no_time_of_the_clock_is_in_it() -> None:
    with zipfile.ZipFile(io.BytesIO(files(of_text(BUTT))[NAME])) as archive:
        assert {info.date_time[0] for info in archive.infolist()} == {1980}
        core = archive.read("docProps/core.xml").decode()
    assert set(re.findall(r"\d{4}-\d\d-\d\dT", core)) == {"2000-01-01T"}


@each_row("path", whose_turn(GOOD), ids=lambda path: path.stem)
def test_a_row_to_sign_tells_what_is_signed(path: Path) -> None:
    """A table that goes over several sheets of paper repeats the columns its rows are known by,
    and what is checked stands on one sheet with its cell to sign."""
    for sheet in of_path(path):
        first, _, last = (sheet.print_title_cols or "").replace("$", "").partition(":")
        if sheet.page_setup.fitToWidth not in (None, 1):
            assert first == "A" and last > "A", sheet.title
        if sheet.title.startswith(("Checks", "Readings", "Hold log", "Channels")):
            assert sheet.page_setup.fitToWidth in (None, 1)
