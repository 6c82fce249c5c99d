"""`hts books`: lists, prints, compares; books of one's own are begun, checked and compared.

Tern Island and its order TIO 7 are invented.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.cli.main import cli
from tests.limits.test_book_file import ISLAND
from tests.rows import each_row

ROOT = Path(__file__).parents[2]
P22 = str(ROOT / "specs" / "p22-header.hts")


def run(*arguments: str) -> Result:
    return CliRunner().invoke(cli, ["books", *arguments])


@pytest.fixture
def island(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "island-law.yaml"
    path.write_text(ISLAND, encoding="utf-8")
    return path


def cells(table: dict[str, object], heading: tuple[str, str | None]) -> list[dict[str, object]]:
    for line in table["lines"]:  # type: ignore[attr-defined]
        if (line["quantity"], line["demand"]) == heading:
            return list(line["cells"])
    raise AssertionError(heading)


def test_books_are_compared_for_a_joint() -> None:
    found = run("asme-b31.3-2016", "asme-viii-1", "--for", P22, "W12", "--format", "json")
    assert found.exit_code == 0, found.output
    (table,) = json.loads(found.output)
    assert table["books"] == ["asme-b31.3 2016", "asme-viii-1 2019"]
    # t = 39.6 mm: UCS-56(d) 222 degC/h * 25.4 / 39.6 = 142.4; B31.3 600 degF/h to 2 in. VIII-1 is
    # the stricter above 425 degC, where its rate begins, and says nothing below.
    piping, vessel = cells(table, ("heating rate", "at most above 315 degC (599 degF)"))
    assert piping["governs"] and vessel["value"] is None
    piping, vessel = cells(table, ("heating rate", "at most above 425 degC (797 degF)"))
    assert vessel["governs"] and not piping["governs"]
    assert vessel["value"].startswith("142.3 degC/h")  # type: ignore[union-attr]
    # 1 h/25 mm * 39.6 mm = 95.04 min by both: nothing is stricter than either.
    assert [cell["governs"] for cell in cells(table, ("hold time", "at least"))] == [True, True]
    assert all(cell["basis"] for cell in cells(table, ("hold time", "at least")))


def test_the_tables_are_read_by_people() -> None:
    text = run("asme-b31.3", "us-navy-s9074", "--for", P22, "W12/stress-relief").output
    assert "W12/stress-relief: what each book asks" in text
    assert "* 675 degC" in text and "undecided: needs the group of US" in text
    assert max(map(len, text.split("\n")[:-3])) <= 110
    page = run("asme-b31.3", "asme-viii-1", "--for", P22, "W12", "--format", "markdown").output
    assert page.startswith("### W12/stress-relief\n\n| demand | asme-b31.3 2016 |")


def test_the_books_of_the_job_are_the_usual_ones() -> None:
    (table,) = json.loads(run("--for", P22, "W12", "--format", "json").output)
    assert table["books"] == ["asme-b31.3 2016", "local-heating", "P-07 3"]


def test_what_leaves_nothing_is_told(island: Path) -> None:
    # P22 for every metal: 590..640 degC of the island and 675 degC or more of B31.3.
    text = ISLAND.replace('for: {p_number: ["1"]}\n    between', "between")
    island.write_text(text, encoding="utf-8")
    said = run(island.name, "asme-b31.3", "--for", P22, "W12").output
    assert "No value of the hold temperature meets all of these books." in said


def test_two_editions_row_by_row() -> None:
    # ASME B31.3: no rate rule in 2012; 331.1.4 limits it from 2014 on.
    text = run("asme-b31.3-2012", "asme-b31.3-2018").output
    assert "heating rate: heating-rate\n  2012: no such row\n  2018: at most " in text
    # P-4: 704..746 degC in 2012 (Table 331.1.1), 650..705 degC in 2016.
    assert re.search(
        r"2012: at least 704 degC at most 746 degC when p_number 4.*\n  2018: at least 650 degC",
        text,
    )
    assert run("asme-b31.3-2018", "asme-b31.3-2018").output.endswith("0 rows differ\n")


@each_row(
    ("arguments", "said"),
    [
        (("asme-b31.3", "asme-ix"), "--for SPEC JOINT"),
        (("asme-b31.3-1999",), "has no edition 1999"),
        (("b31.3",), "did you mean asme-b31.3"),
        (("--for", P22, "W99"), "has no joint W99; it has: W12"),
        (("--for", P22, "W12/none"), "has no treatment none"),
        (("--for", "none.hts", "W12"), "cannot read none.hts"),
        (("none.yaml",), "cannot read none.yaml"),
        (("asme-ix", "--new", "x.yaml"), "--new stands alone"),
        (("--new", "x.txt"), "name it FILE.yaml"),
        (("--new", "asme-ix.yaml"), "ships with the program"),
        (("--new", "7.yaml"), "begin it with a letter"),
        (("--new", f"{P22}/x.yaml"), f"cannot write {P22}/x.yaml: its folder is"),
    ],
)
def test_refused(arguments: tuple[str, ...], said: str) -> None:
    found = run(*arguments)
    assert found.exit_code == 2
    assert said in found.output


def test_a_book_of_ones_own_is_begun_filled_in_and_printed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("--new", "books/their-law.yaml").exit_code == 0
    assert (tmp_path / "books" / "their-law.yaml").is_file()
    assert run("--new", "our-law.yaml").exit_code == 0
    again = run("--new", "our-law.yaml")
    assert again.exit_code == 2 and "there already" in again.output
    empty = run("our-law.yaml")
    assert empty.exit_code == 1
    assert "our-law.yaml:6:8: it is still to be filled in\n    title: >>…<<" in empty.output


def test_faults_stand_at_row_and_column(island: Path) -> None:
    island.write_text(ISLAND.replace("is: thicker_wall", "is: thicker_wal"), encoding="utf-8")
    found = run("island-law.yaml")
    assert found.exit_code == 1
    assert "island-law.yaml:16:9: row thickness, exactly: thicker_wal is not a fact" in found.output
    assert "is: >>thicker_wal<<" in found.output


def test_what_the_rows_come_to_is_told_where_no_trade_would_mean_it(island: Path) -> None:
    assert "R116" not in run("island-law.yaml").output
    island.write_text(ISLAND.replace("1 h/in", "10 h/in", 1), encoding="utf-8")
    found = run("island-law.yaml")
    assert "implausible-limit (R116)" in found.output
    assert "comes to 10 h" in found.output


def test_it_is_printed_and_compared_like_any_other(island: Path) -> None:
    assert "island-law edition 2024: Tern Island pressure" in run(island.name).output
    (table,) = json.loads(run(island.name, "--for", P22, "W12", "--format", "json").output)
    assert table["books"] == ["island-law 2024"]
