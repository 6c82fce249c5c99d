"""The kit list against counts worked out by hand; the working stands beside each."""

import csv
import io
from fractions import Fraction

import openpyxl
import pytest

from hts.paper.kit import files
from hts.paper.kit.kit_rows import kit_rows
from tests.jobs import job_at
from tests.paper.packet.jobs import ROOT, pages_of

HEADER = ROOT / "specs" / "p22-header.hts"
MANY = ROOT / "specs" / "turnaround-many.hts"


def counts(path: object) -> dict[str, tuple[float, float]]:
    return {
        line.item.partition(",")[0]: (float(line.total), float(line.at_once))
        for line in kit_rows(job_at(path))  # type: ignore[arg-type]
    }


def test_a_header_of_16_thermocouples() -> None:
    found = counts(HEADER)
    # 16 cables of 30 m; 16 leads of 1.2 m and a tenth more.
    assert found["extension cable KX class 1"] == (480, 480)
    assert found["thermocouple wire type K class 1"] == (21.12, 21.12)
    # Two layers of 25 mm on 610 mm, 1350 mm wide, each laid 100 mm over itself:
    # (pi * 635 + 100) * 1350 + (pi * 685 + 100) * 1350 = 2 828 130 + 3 040 188 = 5 868 318 mm2.
    area = next(line for line in kit_rows(job_at(HEADER)) if line.unit == "m²")
    assert abs(float(area.total) - 5.868318) < 1e-5
    # Four zones of 21.6 kW.
    demand = next(line for line in kit_rows(job_at(HEADER)) if line.unit == "kW")
    assert demand.at_once == Fraction("86.4")
    heaters = sum(line.total for line in kit_rows(job_at(HEADER)) if line.group == "heating")
    assert heaters == 32


def test_joints_together_and_one_after_another() -> None:
    # Five joints of 8 thermocouples with 40 m of cable; two of them are heated together.
    assert counts(MANY)["extension cable KX class 1"] == (5 * 8 * 40, 2 * 8 * 40)


def test_paper_csv_and_workbook_say_the_same() -> None:
    job = job_at(MANY)
    made = files(job)
    assert made == files(job)
    rows = list(csv.DictReader(io.StringIO(made["kit.csv"].decode("utf-8"), newline="")))
    assert len(rows) == len(kit_rows(job))
    text = "".join(pages_of(made["kit.pdf"])).replace("\N{NO-BREAK SPACE}", " ")
    book = openpyxl.load_workbook(io.BytesIO(made["kit.xlsx"]))
    cells = {str(cell.value) for sheet in book for row in sheet.iter_rows() for cell in row}
    for row in rows:
        assert row["in all"] in text
        assert row["what"] in cells
        assert row["fingerprint"] == job.document.fingerprint


def test_a_blanket_about_a_seam_and_a_pad_is_flat() -> None:
    """By hand: (2.4 + 1.05) m × 1.05 m and (0.6 + 1.21) m × (0.4 + 1.21) m, two layers each."""
    job = job_at(ROOT / "tests" / "specs" / "right" / "seam-and-pad.hts")
    (blanket,) = [line for line in kit_rows(job) if line.unit == "m²"]
    meant = 2 * (3.45 * 1.05 + 1.81 * 1.61)
    assert float(blanket.total) == pytest.approx(meant)
