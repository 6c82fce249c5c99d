"""What an editor is told is what `hts check` finds, in whatever line ends and encodings."""

from __future__ import annotations

from pathlib import Path

import pytest

import hts
from hts.base.text import Source
from hts.editor.buffer import Buffer, uri_of
from hts.editor.look import Looker, Wanted, worked_out
from hts.generate import ROOT
from hts.language.model import Spec
from tests import told
from tests.texts import examples

#: What is handed to an editor of each broken specification.
KEPT = Path(__file__).with_name("told") / "findings.txt"
BROKEN = sorted(Path(ROOT, "specs/broken").glob("*.hts"))
TODAY = "2026-11-20"


def some(every: int) -> list[Path]:
    """A part of them, the same whatever is added."""
    return [path for path in BROKEN if int(told.digest([path.stem]), 16) % every == 0]


def _same(name: str, lines: list[str]) -> None:
    told.write_whole(KEPT, f"{name} whole", lines)
    told.same(KEPT, name, told.digest(lines))


def wanted(path: Path, text: str) -> Wanted:
    return Wanted(f"specs/broken/{path.name}", text, str(path), ROOT, {}, False, "utf-16", TODAY)


def test_the_findings_are_those_of_a_check() -> None:
    lines: list[str] = []
    looker = Looker()
    for path in some(4):
        text = path.read_text("utf-8")
        data, case = looker.look(wanted(path, text))
        assert case is not None
        lines += (line.replace(ROOT, "") for line in told.leaves(data["findings"]))
        expected = hts.check(hts.load(path), today=TODAY)
        shown = [(f["code"], f["start"], f["end"]) for f in data["findings"]]
        for (code, start, end), finding in zip(shown, expected, strict=True):
            assert code == finding.kind.code
            if finding.source.name == f"specs/broken/{path.name}":
                assert (start, end) == finding.at.span[1:]
            else:
                # It lies in a file the text names: told there, with the place itself beside it.
                assert Path(text[start:end].strip('"')).name == Path(finding.source.name).name
    _same("found", lines)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "utf-32"])
def test_columns_are_right_behind_any_letters_and_line_ends(encoding: str) -> None:
    """Letters of two planes before each finding, CR LF and a byte order mark: what the editor marks
    is the text the finding is about."""
    size = {"utf-8": 1, "utf-16": 2, "utf-32": 4}[encoding]
    codec = {"utf-8": "utf-8", "utf-16": "utf-16-le", "utf-32": "utf-32-le"}[encoding]
    for path in BROKEN[::9]:
        whole = "\ufeff# é\U0001f525\n" + path.read_text("utf-8").replace('"', '"\U0001f525é', 1)
        buffer = Buffer(uri_of(str(path)), whole.replace("\n", "\r\n"), 1, encoding)
        lines = buffer.whole.split("\r\n")
        spec = Spec(Source(buffer.text, path.name, str(path)), examples())
        for finding in hts.check(spec, today=TODAY):
            span = finding.at.span
            if "\r\n" in span.text or not span.text:
                continue
            line, column = buffer.position(span.start)
            last, end = buffer.position(span.end)
            assert line == last
            marked = lines[line].encode(codec)[column * size : end * size]
            assert marked.decode(codec) == span.text


def test_what_is_worked_out_stops_when_something_else_is_asked() -> None:
    path = Path(ROOT, "specs/p22-header.hts")
    _, case = Looker().look(wanted(path, path.read_text("utf-8")))
    assert case is not None
    whole = worked_out(case, lambda: False)
    assert len(whole["reasons"]) > 10
    assert len(worked_out(case, lambda: True)["reasons"]) == 1
    assert [label for _, label, _ in whole["hints"] if label.startswith("= 39.6 mm")]


def test_a_fault_is_told_and_never_taken_for_no_findings(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError("a slip of this program")

    monkeypatch.delenv("HTS_DEBUG", raising=False)
    monkeypatch.setattr("hts.editor.look.check_case", broken)
    data, case = Looker().look(wanted(BROKEN[0], BROKEN[0].read_text("utf-8")))
    assert case is None
    assert "a fault of hts" in data["fault"]


@pytest.mark.parametrize("trusted", [False, True])
def test_only_what_is_trusted_may_run_rule_packs(
    trusted: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    shut: list[str] = []
    monkeypatch.setattr("hts.editor.look.run_none", lambda: shut.append("shut"))
    asked = wanted(BROKEN[0], BROKEN[0].read_text("utf-8"))._replace(trusted=trusted)
    Looker().look(asked)
    Looker().actions(asked, None)
    assert shut == ([] if trusted else ["shut", "shut"])


def test_what_can_be_done_about_all_that_is_found() -> None:
    looker = Looker()
    lines: list[str] = []
    for path in some(12):
        text = path.read_text("utf-8")
        lines += (path.stem, *told.leaves(looker.actions(wanted(path, text), (0, len(text)))))
    _same("to do", lines)


@pytest.mark.parametrize("set_to", ["", "2027-01-31"])
def test_the_day_of_the_configuration_counts(
    set_to: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else that of the editor, and never another."""
    (tmp_path / ".git").mkdir()
    (tmp_path / "hts.toml").write_text(f'today = "{set_to}"\n' if set_to else "")
    path = tmp_path / "a.hts"
    asked = wanted(path, "spec 1\n")._replace(folder=str(tmp_path))
    _, case = Looker().look(asked)
    assert case is not None and case.today == (set_to or TODAY)
