"""Paper of a judged record: complete, traceable, the same every time."""

import io
import json
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import jsonschema
import numpy as np
import openpyxl
import pypdf
import pytest

from hts.base.text import Source
from hts.job.compiler import compile_spec
from hts.job.compiler.fingerprint import grouped
from hts.language.model import Spec
from hts.paper.sheet import A4, LETTER
from hts.record import faults
from hts.record.faults import fault_kinds
from hts.record.handover import KINDS, files
from hts.record.handover.thermocouples import shown
from hts.record.handover.traces import spread, thinned
from hts.record.handover.words import failures, judged
from hts.record.handover.words import grouped as together
from hts.record.judging import Failure, Judgement, judge
from hts.record.judging import text as judging_text
from hts.record.plan import plan
from hts.record.reading import Options, read
from hts.record.record import LEFT_OUT
from hts.record.simulation import Ask, simulate
from tests.sampling import whose_turn
from tests.texts import examples

ROOT = Path(__file__).parents[3]
Papers = dict[str, bytes]
SVG = "{http://www.w3.org/2000/svg}"


def judgement_of(text: str, folder: Path, *departures: str, fault: str = "") -> Judgement:
    source = str(ROOT / "specs" / "p22-header.hts")
    loader = examples()
    asked = plan(compile_spec(Spec(Source(text, "p22-header.hts", source), loader)))
    log = folder / "log.csv"
    put = ((fault, ""),) if fault else ()
    log.write_text(simulate(asked, Ask(seed=2, departures=departures, faults=put)))
    record = read([str(log)], asked.run.tags, Options())
    found = faults.find(record, asked)
    return judge(faults.apply(record, found), asked, found)


@pytest.fixture(scope="module")
def spec_text() -> str:
    return (ROOT / "specs" / "p22-header.hts").read_text()


@pytest.fixture(scope="module")
def bad(spec_text: str, tmp_path_factory: pytest.TempPathFactory) -> Judgement:
    folder = tmp_path_factory.mktemp("bad")
    return judgement_of(spec_text, folder, "over-rate", "power-loss", fault="spikes")


@pytest.fixture(scope="module")
def papers(bad: Judgement) -> Papers:
    return files(bad, KINDS)


def words(data: bytes) -> list[str]:
    pages = pypdf.PdfReader(io.BytesIO(data)).pages
    return [re.sub(r"\s+", " ", page.extract_text()) for page in pages]


def test_every_kind_is_made_and_the_same_twice(bad: Judgement, papers: Papers) -> None:
    made = papers
    assert sorted(name.rsplit(".", 1)[1] for name in made) == ["json", "pdf", "png", "svg", "xlsx"]
    assert made == files(bad, KINDS)
    picture = made["W12-stress-relief-record.png"]
    assert picture.startswith(b"\x89PNG\r\n")
    # Width and height stand in the first block of a PNG (ISO/IEC 15948, 11.2.2): 271 x 150 mm at
    # 150 dots an inch.
    width, height = (int.from_bytes(picture[at : at + 4], "big") for at in (16, 20))
    assert (width, height) == (pytest.approx(1600, abs=2), pytest.approx(886, abs=2))


@pytest.mark.parametrize("size", whose_turn([A4, LETTER]), ids=lambda size: size.name)
def test_the_report_tells_every_verdict_and_failure(bad: Judgement, size) -> None:  # type: ignore[no-untyped-def]
    pages = words(files(bad, ["pdf"], size)["W12-stress-relief-record.pdf"])
    # Zero-width and no-break spaces let long words break and keep units with their numbers.
    told = re.sub(r"\s+", "", "".join(pages)).replace("\u200b", "")
    for one in bad.verdicts:
        assert re.sub(r"\s+", "", one.requirement) in told
        if not one.elsewhere:
            assert re.sub(r"\s+", "", one.verdict) in told
    for failure in failures(bad):
        # Units have their signs on paper.
        said = failure.sentence.replace("degC", "°C")
        assert re.sub(r"\s+", "", said)[:60] in told
    for one in bad.record.series:
        assert one in told
    assert "NOTMET" in told


def test_both_fingerprints_and_the_word_simulated_are_on_every_page(
    bad: Judgement, papers: Papers
) -> None:
    pages = words(papers["W12-stress-relief-record.pdf"])
    assert len(pages) >= 4
    for number, page in enumerate(pages, 1):
        assert bad.plan.job.document.fingerprint in page
        assert grouped(bad.record.digest) in page
        assert "SIMULATED" in page
        assert f"page {number} of {len(pages)}" in page


def test_the_workbook_has_verdicts_and_readings_as_numbers(bad: Judgement, papers: Papers) -> None:
    data = papers["W12-stress-relief-record.xlsx"]
    book = openpyxl.load_workbook(io.BytesIO(data))
    verdicts = [row[0].value for row in book["Verdicts"].iter_rows(min_row=5)]
    assert all(one.requirement in verdicts for one in bad.verdicts)
    sheet = book["Readings"]
    heads = [cell.value for cell in sheet[4]]
    column = heads.index("T1, °C") + 1
    values = bad.record.series["T1"].values
    for row in (0, 100, len(values) - 1):
        assert sheet.cell(5 + row, column).value == pytest.approx(values[row], abs=0.051)


def test_the_json_is_as_its_schema_says(papers: Papers) -> None:
    document = json.loads(papers["W12-stress-relief-record.json"])
    schema = json.loads((ROOT / "grammar" / "record.schema.json").read_text())
    jsonschema.validate(document, schema)


def test_the_chart_is_well_formed_and_names_every_trace(bad: Judgement, papers: Papers) -> None:
    root = ET.fromstring(papers["W12-stress-relief-record.svg"])
    texts = [element.text or "" for element in root.iter(f"{SVG}text")]
    for tag in bad.record.series:
        assert tag in texts
    for first, last, _, _ in together(failures(bad)):
        assert (str(first) if first == last else f"{first}–{last}") in texts


@pytest.fixture(scope="module")
def lost(spec_text: str, tmp_path_factory: pytest.TempPathFactory) -> Judgement:
    return judgement_of(spec_text, tmp_path_factory.mktemp("lost"), fault="open-upscale")


def test_the_hold_has_a_panel_and_a_lost_trace_is_named_where_it_ends(lost: Judgement) -> None:
    root = ET.fromstring(files(lost, ["svg"])["W12-stress-relief-record.svg"])
    texts = [element.text or "" for element in root.iter(f"{SVG}text")]
    # The range that the specification asks for, and a number every 10 K between.
    assert {"highest in the hold 720 °C", "lowest in the hold 690 °C"} <= set(texts)
    assert {"690", "700", "710", "720"} <= set(texts)
    tag = next(one.tag for one in lost.faults if one.kind == "open-upscale")
    assert f"{tag} ends" in texts
    assert "set aside as faulty" in texts


def test_what_is_set_aside_is_kept_in_the_workbook(lost: Judgement) -> None:
    data = files(lost, ["xlsx"])["W12-stress-relief-record.xlsx"]
    rows = list(openpyxl.load_workbook(io.BytesIO(data))["Set aside"].iter_rows(min_row=5))
    tag = next(one.tag for one in lost.faults if one.kind == "open-upscale")
    values = [row[3].value for row in rows if row[0].value == tag]
    series = lost.record.series[tag]
    assert len(values) == int((series.status == LEFT_OUT).sum()) > 0
    assert set(values) == {1372}  # the top of type K, where the simulation drives it
    assert {row[4].value for row in rows if row[0].value == tag} == {
        "open circuit, driven to full scale"
    }


def test_people_read_no_name_meant_for_programs(lost: Judgement) -> None:
    """Every kind of fault in every paper: the words for it, and never `open-upscale`."""
    one = lost.faults[0]
    every = tuple(one._replace(kind=kind.name) for kind in fault_kinds.KINDS)
    told = lost._replace(faults=every)
    made = files(told, ["pdf", "xlsx", "svg"])
    book = openpyxl.load_workbook(io.BytesIO(made["W12-stress-relief-record.xlsx"]))
    cells = [
        str(cell) for sheet in book for row in sheet.iter_rows(values_only=True) for cell in row
    ]
    for text in (
        judging_text.write(told),
        " ".join(words(made["W12-stress-relief-record.pdf"])).replace("\u200b", ""),
        "\n".join(cells),
        made["W12-stress-relief-record.svg"].decode(),
    ):
        assert not [k.name for k in fault_kinds.KINDS if "-" in k.name and k.name in text]
    tight = re.sub(r"\s+", "", judging_text.write(told))
    assert all(re.sub(r"\s+", "", kind.title) in tight for kind in fault_kinds.KINDS)


def test_the_report_says_who_signs_what_was_welded_and_how_each_was_measured(
    lost: Judgement,
) -> None:
    told = " ".join(words(files(lost, ["pdf"])["W12-stress-relief-record.pdf"]))
    told = told.replace("\u200b", "").replace("\u00a0", " ")
    job = lost.plan.job.spec.file.job
    assert job is not None and job.signed is not None and job.signed.prepared is not None
    for said in (job.signed.prepared.role, "WPS-12", "PQR-31", "610 mm", "K-2291",
                 "K class 1", "R2 channel 3", "62 mm"):  # fmt: skip
        assert said in told


def test_the_fastest_rate_of_each_is_that_of_the_verdict(bad: Judgement) -> None:
    rates = [one.heating.rate for one in shown(bad) if one.heating is not None]
    said = next(one.actual for one in bad.verdicts if one.requirement == "heating rate")
    assert said.startswith(f"fastest {max(rates):.0f} ")


def test_text_of_a_specification_is_never_markup(spec_text: str, tmp_path: Path) -> None:
    hostile = '#eval(\\"1\\") $x$ *b* <script>&amp; \N{RIGHT-TO-LEFT OVERRIDE}' + "y" * 9_000
    old = "Tern Island: reheat outlet header, closing weld"
    judgement = judgement_of(spec_text.replace(old, hostile), tmp_path, "short-hold")
    made = files(judgement, KINDS)
    told = "".join(words(made["W12-stress-relief-record.pdf"])).replace("\u200b", "")
    assert '#eval("1")' in told and "\N{RIGHT-TO-LEFT OVERRIDE}" not in told
    ET.fromstring(made["W12-stress-relief-record.svg"])


def test_no_peak_is_lost_when_readings_share_a_fleck_of_paper() -> None:
    times = np.arange(100_000.0)
    values = np.sin(times / 3000) * 300 + 400
    values[54_321], values[77_777] = 900.0, -5.0
    values[10_000:12_000] = np.nan
    less, kept = thinned(times, values, 100.0)
    assert len(less) < 3000 and np.all(np.diff(less) >= 0)
    assert np.nanmax(kept) == 900.0 and np.nanmin(kept) == -5.0
    assert np.isnan(kept).any()


def test_tags_beside_the_traces_never_overlap() -> None:
    places = spread([10.0, 10.1, 10.2, 50.0, 99.0, 99.5, 99.9], 2.5, 100.0)
    assert np.diff(places).min() >= 2.5 - 1e-9 and places[-1] <= 100.0


def test_failures_that_overlap_are_one_mark() -> None:
    made = [Failure((), start, end, "") for start, end in ((0, 10), (5, 12), (30, 40))]
    assert together(made) == [(1, 2, 0, 12), (3, 3, 30, 40)]


def test_a_judged_requirement_without_failures_needs_no_mark(bad: Judgement) -> None:
    met = [one for one in judged(bad) if one.verdict == "met" and one.guarded in (None, "met")]
    assert met and all(f not in failures(bad) for one in met for f in one.failures)
