"""`hts compile` with papers asked for: which files, where, and what goes away."""

import hashlib
import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.checking.rules.examples import BUTT
from hts.cli.compile import command
from hts.generate import ROOT
from hts.job.outputs.contents import NAME
from hts.job.outputs.job_files import NAMES

#: What only papers need, and no table.
HEAVY = (
    "typst",
    "segno",
    "fontTools",
    "drawsvg",
    "xlsxwriter",
    "hts.paper.packet",
    "hts.paper.drawings",
)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(command, list(arguments))


@pytest.fixture
def spec(tmp_path: Path) -> str:
    path = tmp_path / "job.hts"
    path.write_text(BUTT, encoding="utf-8")
    return str(path)


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_packet_is_added_and_listed_with_its_digest(tmp_path: Path, spec: str) -> None:
    out = tmp_path / "out"
    result = run(spec, "-o", str(out), "--packet")
    assert result.exit_code == 0, result.output
    assert names(out) == sorted([*NAMES, "packet-W12.pdf", NAME])
    assert [Path(line).name for line in result.stdout.splitlines()] == [
        *NAMES,
        "packet-W12.pdf",
        NAME,
    ]
    data = (out / "packet-W12.pdf").read_bytes()
    assert data.startswith(b"%PDF-")
    # The form of sha256sum (GNU coreutils): digest, two blanks, name.
    digest = hashlib.sha256(data).hexdigest()
    assert (out / NAME).read_text("utf-8").endswith(f"{digest}  packet-W12.pdf\n")


def test_two_folders_get_the_same_bytes(tmp_path: Path, spec: str) -> None:
    for folder in ("a", "b"):
        assert run(spec, "-o", str(tmp_path / folder), "--packet", "--svg").exit_code == 0
    assert names(tmp_path / "a") == names(tmp_path / "b")
    for name in names(tmp_path / "a"):
        assert (tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes()


def test_papers_of_an_earlier_text_go_away(tmp_path: Path, spec: str) -> None:
    out = tmp_path / "out"
    run(spec, "-o", str(out), "--packet", "--svg")
    Path(spec).write_text(BUTT.replace("W12", "W13"), encoding="utf-8")
    assert run(spec, "-o", str(out), "--packet").exit_code == 0
    assert names(out) == sorted([*NAMES, "packet-W13.pdf", NAME])
    assert run(spec, "-o", str(out)).exit_code == 0
    assert names(out) == sorted([*NAMES, NAME])


def test_what_is_not_ours_or_was_changed_stays(tmp_path: Path, spec: str) -> None:
    out = tmp_path / "out"
    run(spec, "-o", str(out), "--packet")
    (out / "packet-W99.pdf").write_bytes(b"somebody else's")
    (out / "packet-W12.pdf").write_bytes(b"with notes in it")
    assert run(spec, "-o", str(out)).exit_code == 0
    assert names(out) == sorted([*NAMES, NAME, "packet-W12.pdf", "packet-W99.pdf"])


def test_a_list_with_lines_of_others_takes_nothing_away(tmp_path: Path, spec: str) -> None:
    out = tmp_path / "out"
    run(spec, "-o", str(out))
    (out / NAME).write_text(
        (out / NAME).read_text("utf-8")
        + f"{hashlib.sha256(b'outside').hexdigest()}  ../outside.txt\nno digest  x\n",
        encoding="utf-8",
    )
    (tmp_path / "outside.txt").write_bytes(b"outside")
    refused = run(spec, "-o", str(out))
    assert refused.exit_code == 2 and "was changed by hand" in refused.stderr
    assert run(spec, "-o", str(out), "--replace").exit_code == 0
    assert names(out) == sorted([*NAMES, NAME])
    assert (tmp_path / "outside.txt").exists()


def test_a_refused_text_leaves_the_earlier_packet(tmp_path: Path, spec: str) -> None:
    out = tmp_path / "out"
    run(spec, "-o", str(out), "--packet")
    before = {name: (out / name).read_bytes() for name in names(out)}
    Path(spec).write_text(BUTT.replace("30 mm", "30"), encoding="utf-8")
    assert run(spec, "-o", str(out), "--packet").exit_code == 1
    assert {name: (out / name).read_bytes() for name in names(out)} == before


def test_a_folder_that_cannot_be_written(tmp_path: Path, spec: str) -> None:
    (tmp_path / "file").write_text("a file", encoding="utf-8")
    result = run(spec, "-o", str(tmp_path / "file" / "out"), "--packet")
    assert result.exit_code == 2 and "cannot write into" in result.stderr


@pytest.mark.parametrize(
    ("arguments", "configured", "wide"),
    [
        ((), "", 595),
        (("--sheet", "letter"), "", 612),
        ((), '[paper]\nsheet = "Letter"\n', 612),
        (("--sheet", "A4"), '[paper]\nsheet = "Letter"\n', 595),
    ],
)
def test_sheet_on_the_command_line_else_configured(
    tmp_path: Path, spec: str, arguments: tuple[str, ...], configured: str, wide: int
) -> None:
    """ISO 216: A4 is 595 points wide; ANSI/ASME Y14.1: size A is 612."""
    import pypdf

    (tmp_path / "hts.toml").write_text(configured, encoding="utf-8")
    out = tmp_path / "out"
    assert run(spec, "-o", str(out), "--packet", *arguments).exit_code == 0
    page = pypdf.PdfReader(out / "packet-W12.pdf").pages[0]
    assert round(float(page.mediabox.width)) == wide


@pytest.mark.parametrize("package", ["typst", "segno"])
def test_a_missing_package_is_named_with_its_extra(
    tmp_path: Path, spec: str, monkeypatch: pytest.MonkeyPatch, package: str
) -> None:
    monkeypatch.setitem(sys.modules, package, None)
    result = run(spec, "-o", str(tmp_path / "out"), "--packet")
    assert result.exit_code != 0
    assert f'{package} is not installed; run: pip install "hts[paper]"' in result.stderr
    assert not (tmp_path / "out").exists()


def test_nothing_heavy_unless_asked_for(tmp_path: Path, spec: str) -> None:
    program = (
        "import json, sys\n"
        "from hts.cli.main import main\n"
        f"sys.argv = ['hts', 'compile', {spec!r}, '-o', {str(tmp_path / 'out')!r}]\n"
        "try:\n    main()\nexcept SystemExit: pass\n"
        "print(json.dumps(sorted(sys.modules)), file=sys.stderr)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, cwd=ROOT, check=True
    )
    modules = json.loads(done.stderr.splitlines()[-1])
    assert "hts.job.outputs.job_files" in modules
    assert [name for name in modules if name.startswith(HEAVY)] == []


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--label", "rows=3"], "--label is for the sheet of --labels"),
        (["--labels", "--label", "left=nan"], "'left=nan'; write columns, rows"),
        (["--labels", "--label", "top=inf"], "'top=inf'; write columns, rows"),
        (["--labels", "--label", "rows=2.5"], "'rows=2.5'; write columns, rows"),
    ],
)
def test_how_labels_lie_has_to_make_sense(
    tmp_path: Path, spec: str, arguments: list[str], said: str
) -> None:
    result = run(spec, "-o", str(tmp_path / "out"), *arguments)
    assert result.exit_code == 2
    assert said in result.stderr
    assert not (tmp_path / "out").exists()
