"""What notebooks show, and the example that is one."""

from __future__ import annotations

import pydoc
from pathlib import Path

import pytest

import hts
from hts.checking.rules.examples import BUTT
from hts.generate import ROOT

HOSTILE = "<script>alert(1)</script>&amp;"


@pytest.fixture(autouse=True)
def in_the_repository(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def test_help_shows_everything() -> None:
    page = pydoc.plain(pydoc.render_doc(hts))
    for name in hts.__all__:
        assert name == "__version__" or f"{name}(" in page or f"class {name}" in page, name
        assert name in dir(hts)


def test_what_things_say_of_themselves() -> None:
    spec = hts.load("specs/p22-header.hts")
    job = hts.compile(spec)
    assert repr(spec) == "<Spec specs/p22-header.hts: W12>"
    assert repr(job) == "<Job HT-0147 revision B: W12>"
    assert repr(hts.load("spec 1\n$\n")) == "<Spec <text>: no joint, 1 error of language>"
    shorter = hts.load(spec.source.text.replace("for 2 h at most", "for 1 h at most"), near=spec)
    told = repr(hts.diff(spec, shorter))
    assert told == "<Comparison specs/p22-header.hts -> <text>: 3 re-approve>"


def test_no_text_is_markup() -> None:
    spec = hts.load(BUTT.replace("header butt", HOSTILE).replace('"HT-0001"', f'"{HOSTILE}"'))
    other = hts.load(BUTT.replace("header butt", "header"))
    wrong = hts.load(BUTT.replace("for 2 h", "for 2 h at most 1 h").replace("W12", "W13", 1))
    shown = [
        hts.compile(spec)._repr_html_(),
        hts.diff(spec, other)._repr_html_(),
        hts.check(wrong)._repr_html_(),
        hts.notebook.table([HOSTILE], [[HOSTILE]]),
    ]
    for page in shown:
        assert "<script" not in page and page.count("<table>") == page.count("</table>") > 0
    assert "&lt;script&gt;alert(1)&lt;/script&gt;&amp;amp;" in shown[1]
    assert hts.check(spec)._repr_html_() == "<p>no findings</p>"


def test_tables_go_into_pandas_and_polars_as_they_are() -> None:
    pandas, polars = pytest.importorskip("pandas"), pytest.importorskip("polars")
    job = hts.compile(hts.load("specs/p22-header.hts"))
    tags = hts.tables(job)["tags"]
    assert polars.DataFrame(tags).shape == pandas.DataFrame(tags).shape == (16, len(tags[0]))
    findings = hts.check(hts.load("specs/broken/zone-gap.hts"))
    assert polars.DataFrame(findings.rows)["code"].to_list() == ["Z113"]


def test_errors_name_the_path(tmp_path: Path) -> None:
    with pytest.raises(hts.Unreadable, match=r"^nowhere\.hts: "):
        hts.load("nowhere.hts")
    with pytest.raises(hts.CannotCompile, match=r"^specs/broken/tag-twice\.hts: "):
        hts.compile(hts.load("specs/broken/tag-twice.hts"))
    with pytest.raises(hts.CannotFormat, match=r"^<text>:2:1: ") as caught:
        hts.format("spec 1\n{")
    assert caught.value.findings


def test_a_record_is_judged_as_the_command_judges_it(tmp_path: Path) -> None:
    pytest.importorskip("polars")
    from click.testing import CliRunner

    from hts.cli.main import cli

    log = str(tmp_path / "run.csv")
    path = "specs/carbon-steel-butt.hts"
    run = CliRunner().invoke(cli, ["record", "simulate", path, "-o", log])
    assert run.exit_code == 0, run.output
    judgement = hts.judge(hts.compile(hts.load(path)), log)
    told = CliRunner().invoke(cli, ["record", "check", path, log]).output
    assert told.rstrip().rsplit("\n", 1)[-1].startswith(f"{judgement.overall}:")
    assert repr(judgement).startswith("<Judgement of W07: ")
    assert "<table>" in judgement._repr_html_()  # type: ignore[attr-defined]


def test_the_example_notebook_runs() -> None:
    nbformat = pytest.importorskip("nbformat")
    client = pytest.importorskip("nbclient")
    pytest.importorskip("ipykernel")
    pytest.importorskip("polars")
    book = nbformat.read(Path(ROOT, "grammar", "example.ipynb"), as_version=4)
    client.NotebookClient(book, timeout=60, resources={"metadata": {"path": ROOT}}).execute()
    shown = [
        output["data"] for cell in book.cells if cell.cell_type == "code" for output in cell.outputs
    ]
    assert "hold-too-short" in shown[1]["text/html"] and "re-approve" in shown[2]["text/html"]
    assert "image/svg+xml" in shown[-1]
