"""Many records: each with its specification, the same table however the work is spread."""

import csv
import gzip
import io
import json
import shutil
from pathlib import Path

import openpyxl
import pytest

from hts.checking.checker.results import Shard
from hts.job.compiler import compile_spec
from hts.language.model import Loader, Spec
from hts.language.model.load import root_of
from hts.record.archive import ArchiveLine, audit
from hts.record.archive.audit import Asked
from hts.record.archive.find import logs_below, specifications
from hts.record.archive.table import table
from hts.record.errors import RecordError
from hts.record.labels import labels
from hts.record.plan import plan
from hts.record.reading import Options
from hts.record.simulation import Ask, simulate

ROOT = Path(__file__).parents[3]


def record_of(name: str, cycle: str | None = None, seed: int = 1, *departures: str) -> str:
    path = str(ROOT / "specs" / f"{name}.hts")
    loader = Loader(root_of(path))
    job = compile_spec(Spec(loader.read(path), loader))
    run = plan(job, None, cycle)
    recorder = run.run.program.recorder
    every = float(recorder.interval.value) if recorder is not None and recorder.interval else 60.0
    start = None
    if job.document.dated:
        import datetime

        start = datetime.datetime.fromisoformat(f"{job.document.dated}T06:00")
    return simulate(run, Ask(seed, every, start, departures))


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("archive")
    (folder / "2026").mkdir()
    (folder / "2026" / "a.csv").write_text(record_of("p22-header"))
    (folder / "2026" / "b.csv").write_text(record_of("p22-header", None, 3, "short-hold"))
    (folder / "c.csv").write_text(record_of("p91-pipe", "tempering"))
    (folder / "stray.csv").write_text("time,T1\n00:00:00,20\n00:01:00,21\n")
    (folder / "notes.md").write_text("no log")
    return folder


@pytest.fixture(scope="module")
def specs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The good specifications without the broken ones beside them."""
    folder = tmp_path_factory.mktemp("specs")
    (folder / ".git").mkdir()
    for path in (ROOT / "specs").glob("*.hts"):
        (folder / path.name).write_text(path.read_text())
    (folder / "library").mkdir()
    for path in (ROOT / "specs" / "library").glob("*.hts"):
        (folder / "library" / path.name).write_text(path.read_text())
    return folder


def lines(specs: Path, archive: Path, **more: object) -> list[ArchiveLine]:
    return list(audit(Asked(str(specs), str(archive), Options(), **more)))  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def whole(specs: Path, archive: Path) -> list[ArchiveLine]:
    """The table of the archive by one process, judged once for all who look at it."""
    return lines(specs, archive, jobs=1)


def test_each_log_is_judged_against_its_own_specification(whole: list[ArchiveLine]) -> None:
    by_record = {line.record: line for line in whole if line.record}
    assert by_record["2026/a.csv"][:4] == ("HT-0147", "B", "W12", "stress-relief")
    assert by_record["2026/a.csv"].verdict == "met"
    assert by_record["2026/b.csv"].verdict == "not met"
    assert "hold time" in by_record["2026/b.csv"].failed
    assert by_record["c.csv"].document == "HT-0153"
    stray = by_record["stray.csv"]
    assert stray.verdict == "could not judge" and "which document" in stray.note
    assert all("simulated" in line.note for name, line in by_record.items() if name != "stray.csv")


def test_packed_records_and_workbooks_are_judged(specs: Path, tmp_path: Path) -> None:
    text = record_of("p22-header")
    (tmp_path / "HT-0147 a.log.gz").write_bytes(gzip.compress(text.encode()))
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for row in csv.reader(io.StringIO(text)):
        sheet.append(row)
    book.save(tmp_path / "HT-0147 b.xlsx")
    # What is made of a record or a job is no record.
    book.save(tmp_path / "W12-stress-relief-record.xlsx")
    (tmp_path / "job").mkdir()
    (tmp_path / "job" / "job.json").write_text("{}")
    book.save(tmp_path / "job" / "workbook.xlsx")
    found = {line.record: line.verdict for line in lines(specs, tmp_path) if line.record}
    assert found == {"HT-0147 a.log.gz": "met", "HT-0147 b.xlsx": "met"}


def test_a_run_without_a_record_is_told(whole: list[ArchiveLine]) -> None:
    missing = {
        (line.document, line.joint, line.cycle) for line in whole if line.verdict == "no record"
    }
    assert ("HT-0153", "W33", "bake") in missing
    assert ("HT-0147", "W12", "stress-relief") not in missing
    assert not any(cycle == "preheat" for _, _, cycle in missing)


def test_the_table_does_not_hang_on_the_number_of_processes(
    specs: Path, archive: Path, whole: list[ArchiveLine]
) -> None:
    assert whole == lines(specs, archive, jobs=2) == lines(specs, archive)


def test_shards_are_the_whole_and_nothing_twice(
    specs: Path, archive: Path, whole: list[ArchiveLine]
) -> None:
    parts = [line for number in (1, 2, 3) for line in lines(specs, archive, shard=Shard(number, 3))]
    assert sorted(parts) == sorted(whole)


def test_what_a_record_was_made_for_is_compared(specs: Path, tmp_path: Path) -> None:
    text = record_of("p22-header").replace("HT-0147 revision B", "HT-0147 revision A")
    (tmp_path / "old.csv").write_text(text.replace("fingerprint,", "fingerprint,0000-", 1))
    line = next(line for line in lines(specs, tmp_path) if line.record)
    assert "of revision A" in line.note and "made for the text 0000-" in line.note


@pytest.mark.parametrize(
    ("head", "document", "revision", "joint", "cycle"),
    [
        ("document,HT-1 revision B\njoint,W1\ncycle,tempering\n", "HT-1", "B", "W1", "tempering"),
        ("Document: HT-1, rev. 2\nWeld: W1\n", "HT-1", "2", "W1", ""),
        ("# specification = HT-1\n", "HT-1", "", "", ""),
        ("Job;HT-1\nTreatment;bake;\n", "HT-1", "", "", "bake"),
        ('"Procedure"\t"HT-1"\n', "HT-1", "", "", ""),
        ("joint,cycle,zone,control thermocouple\n", "", "", "", ""),
    ],
)
def test_a_log_says_what_it_is_of(
    tmp_path: Path, head: str, document: str, revision: str, joint: str, cycle: str
) -> None:
    path = tmp_path / "log.csv"
    path.write_text(f"{head}time,T1 [degC]\n0,20\n")
    assert labels(str(path))[:4] == (document, revision, joint, cycle)


def test_the_map_beside_a_log_and_then_its_name_say_it(specs: Path, tmp_path: Path) -> None:
    rows = "".join(record_of("p22-header").splitlines(keepends=True)[7:])
    (tmp_path / "x.csv").write_text(rows)
    (tmp_path / "x.yaml").write_text("document: HT-0147\njoint: W12\n")
    (tmp_path / "ht-0147_W12_run 2.csv").write_text(rows)
    found = {line.record: line.verdict for line in lines(specs, tmp_path) if line.record}
    assert found == {"x.csv": "met", "ht-0147_W12_run 2.csv": "met"}


def test_numbers_of_documents_are_found(specs: Path) -> None:
    found = specifications(str(specs)).by_number
    assert len(found["HT-0147"]) == 1 and found["HT-0147"][0].endswith("p22-header.hts")


def test_an_empty_folder_is_told(specs: Path, tmp_path: Path) -> None:
    with pytest.raises(RecordError, match="no log"):
        lines(specs, tmp_path)


def test_every_form_of_the_table_tells_the_same(whole: list[ArchiveLine]) -> None:
    read = list(csv.DictReader(io.StringIO("".join(table(whole, "csv")), newline="")))
    told = [json.loads(text) for text in table(whole, "json")]
    assert [row["verdict"] for row in read] == [line.verdict for line in whole]
    assert [row["verdict"] for row in told] == [line.verdict for line in whole]
    text = "".join(table(whole, "text"))
    assert all(line.record in text for line in whole)
    totals, whys = text.splitlines()[-2:]
    assert totals.startswith(f"{len(whole)} lines: ")
    assert sum(int(part.split()[0]) for part in totals.split(": ")[1].split(", ")) == len(whole)
    counted = whys.removeprefix("could not judge: ").split(", ")
    assert "1 unnamed" in counted
    assert sum(int(part.split()[0]) for part in counted) == sum(bool(line.why) for line in whole)


def test_tables_of_a_compiled_job_are_no_records(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    for name in ("job.json", "setpoints.csv", "schedule.csv", "tags.csv"):
        (tmp_path / "out" / name).write_text("joint,cycle\nW12,stress-relief\n")
    (tmp_path / "tags.csv").write_text("time,T1\n00:00:00,20\n")
    assert list(logs_below(str(tmp_path))) == [str(tmp_path / "tags.csv")]


def test_books_of_the_configuration_count(tmp_path: Path) -> None:
    """A specification without `governed by` is judged by the books its folder configures."""
    shutil.copytree(ROOT / "specs" / "library", tmp_path / "library")
    text = (ROOT / "specs" / "p22-header.hts").read_text()
    spec = tmp_path / "a.hts"
    spec.write_text("".join(line for line in text.splitlines(True) if "governed by" not in line))
    (tmp_path / "log.csv").write_text(record_of("p22-header"))
    asked = Asked(str(spec), str(tmp_path), Options())
    (without,) = audit(asked)
    assert (without.verdict, without.note) == (
        "could not judge",
        f"{spec}: the specification has errors; run: hts check {spec}",
    )
    books = tmp_path / "books.toml"
    books.write_text('books = ["asme-b31.3 edition 2016", "local-heating"]\n')
    (with_them,) = audit(asked._replace(config=str(books)))
    assert with_them.verdict == "met"


def test_a_run_made_to_a_sheet_with_an_error_of_a_rule_is_judged(tmp_path: Path) -> None:
    """By what the sheet says, as one record alone; nothing is met by a wrong one."""
    shutil.copytree(ROOT / "specs" / "library", tmp_path / "library")
    text = (ROOT / "specs" / "p22-header.hts").read_text()
    spec = tmp_path / "a.hts"
    spec.write_text(text.replace("for 2 h at most 6 h", "for 1 h at most 6 h"))
    (tmp_path / "log.csv").write_text(record_of("p22-header"))
    (line,) = audit(Asked(str(spec), str(tmp_path), Options()))
    assert (line.verdict, line.open, line.failed) == ("not shown", "specification", "")
    assert "1 error: hold-too-short L202 in line" in line.note


def test_results_beside_a_specification_are_judged(specs: Path, tmp_path: Path) -> None:
    """What is asked for after the heat and not in the results file is not shown, and never met."""
    (tmp_path / "specs").mkdir()
    shutil.copy(specs / "p22-header.hts", tmp_path / "specs")
    shutil.copytree(specs / "library", tmp_path / "specs" / "library")
    (tmp_path / ".git").mkdir()
    (tmp_path / "logs").mkdir()
    (tmp_path / "logs" / "a.csv").write_text(record_of("p22-header"))

    def judged(name: str) -> ArchiveLine:
        folder = tmp_path / name
        (line,) = [line for line in lines(folder, tmp_path / "logs") if line.record]
        return line

    alone = judged("specs")
    assert alone.verdict == "met" and "no results file" in alone.note
    for name, text, verdict in (
        ("hard", 'measured hardness weld 400 HBW\n  examined "RT" rejected', "not met"),
        ("missing", 'examined "RT" accepted', "not shown"),
        ("wrong", "measured softness", "could not judge"),
    ):
        shutil.copytree(tmp_path / "specs", tmp_path / name)
        beside = tmp_path / name / "p22-header.results.hts"
        beside.write_text(f"spec 1\n\nresults W12 {{\n  {text}\n}}\n")
        line = judged(name)
        assert line.verdict == verdict, line
        if name == "hard":
            assert "hardness of the weld" in line.failed and "examination RT" in line.failed
        if name == "missing":
            assert "hardness of the weld" in line.open and "no results" not in line.note
        if name == "wrong":
            assert line.why == "results" and "p22-header.results.hts:4:" in line.note


def test_a_text_changed_between_two_tables_is_read_anew(tmp_path: Path) -> None:
    """Also what it uses: the plan is kept by what the files say, not by their names."""
    shutil.copytree(ROOT / "specs" / "library", tmp_path / "library")
    spec = tmp_path / "p22-header.hts"
    shutil.copy(ROOT / "specs" / "p22-header.hts", spec)
    (tmp_path / "logs").mkdir()
    (tmp_path / "logs" / "a.csv").write_text(record_of("p22-header"))
    asked = Asked(str(spec), str(tmp_path / "logs"), Options(), None, 1)
    (first,) = audit(asked)
    spec.write_text(spec.read_text().replace("for 2 h at most 6 h", "for 5 h at most 6 h"))
    (second,) = audit(asked)
    assert (first.verdict, second.verdict) == ("met", "not met")
    assert "hold time" in second.failed
