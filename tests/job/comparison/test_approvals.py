"""Changes somebody approved stay approved as long as they are the same change."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.cli.diff import command
from hts.job.comparison.approvals import (
    DamagedApprovals,
    Judged,
    approving,
    read_approvals,
    written,
)
from tests.job.comparison.texts import changed, named, text_of
from tests.rows import each_row

P22 = named("p22-header")
LONGER = ("for 2 h at most", "for 3 h at most")


def test_an_approved_change_does_not_fail() -> None:
    found = changed(P22, LONGER)
    approvals = approving(found.changes, "Owner's engineer")
    judged = Judged(found, read_approvals(written(approvals), "approved.json"))
    assert judged.open == [] and judged.worst is None and judged.unused == []
    assert all(judged.approval(change) for change in found.changes)


def test_another_value_is_not_approved() -> None:
    approvals = approving(changed(P22, LONGER).changes, "Owner's engineer")
    other = Judged(changed(P22, ("for 2 h at most", "for 4 h at most")), approvals)
    assert [c.kind for c in other.open] == ["hold time"]
    assert [a.kind for a in other.unused] == ["treatment/hold time"]


def test_the_same_value_written_elsewhere_and_otherwise_is() -> None:
    approvals = approving(changed(P22, LONGER).changes, "Owner's engineer")
    moved = changed(
        P22, ("spec 1\n", "spec 1\n# a comment\n\n"), (LONGER[0], "for 180 min at most")
    )
    assert Judged(moved, approvals).open == []


def test_one_approval_for_what_differs_in_the_address_only() -> None:
    found = changed(named("turnaround-many"), ("for 1 h 15 min", "for 80 min"))
    (hold,) = [a for a in approving(found.changes, "x") if a.kind == "treatment/hold time"]
    assert hold.addresses == tuple(f"W{n}/single/hold-1/for" for n in (23, 24, 25))


@each_row(
    ("text", "said"),
    [
        ("", "a.json:1:1"),
        ('{"approvals": [}', "a.json:1:16"),
        ("[]", "a.json:1:1: expected"),
        ('{"approvals": [], "more": 1}', "expected"),
        ('{"approvals": [\n {}\n]}', "a.json:2:2: an approval has the keys"),
        ('{"approvals": [\n 1,\n 2]}', "a.json:2:2"),
        ("[" * 100_000, "a.json:1:"),
        (f'{{"approvals": [{"9" * 5000}]}}', "too many digits"),
    ],
)
def test_a_damaged_file_says_where(text: str, said: str) -> None:
    with pytest.raises(DamagedApprovals) as caught:
        read_approvals(text, "a.json")
    assert said in str(caught.value)


@each_row(
    ("field", "value"),
    [
        ("addresses", "W1"),
        ("addresses", [1]),
        ("old", 1),
        ("by", ""),
        ("verdict", "fine"),
        ("kind", None),
    ],
)
def test_a_damaged_entry_says_where(field: str, value: object) -> None:
    good = {
        "addresses": ["W1"],
        "kind": "a/b",
        "old": None,
        "new": "1",
        "verdict": "note",
        "by": "x",
    }
    text = json.dumps({"approvals": [good, {**good, field: value}]}, indent=1)
    line = 1 + text[: text.rindex("{")].count("\n")
    with pytest.raises(DamagedApprovals, match=f"a.json:{line}:.*`{field}`"):
        read_approvals(text, "a.json")


def test_written_and_read_again() -> None:
    approvals = approving(changed(P22, LONGER).changes, 'by "us"\u202e')
    assert read_approvals(written(approvals), "a.json") == approvals
    assert read_approvals(written([]), "a.json") == []


# On the command line -----------------------------------------------------------------------------


def run(folder: Path, *arguments: str) -> Result:
    (folder / "old.hts").write_text(text_of(P22))
    (folder / "new.hts").write_text(text_of(P22).replace(*LONGER))
    library = P22.parent / "library"
    (folder / "library").mkdir(exist_ok=True)
    for path in library.iterdir():
        (folder / "library" / path.name).write_text(path.read_text())
    sides = [str(folder / "old.hts"), str(folder / "new.hts")]
    return CliRunner().invoke(command, [*sides, *arguments])


def test_approve_then_pass(tmp_path: Path) -> None:
    assert run(tmp_path).exit_code == 1
    file = str(tmp_path / "approved.json")
    made = run(tmp_path, "--approvals", file, "--approve", "Owner's engineer, 2026-11-25")
    assert made.exit_code == 0 and "2 changes approved" in made.output
    again = run(tmp_path, "--approvals", file)
    assert again.exit_code == 0
    assert "approved (re-approve) hold time tightened" in again.output
    assert "approved by: Owner's engineer, 2026-11-25" in again.output
    # A second run adds nothing.
    before = Path(file).read_text()
    run(tmp_path, "--approvals", file, "--approve", "x")
    assert Path(file).read_text() == before


def test_an_approval_that_approves_nothing_is_told(tmp_path: Path) -> None:
    file = tmp_path / "approved.json"
    entry = {"addresses": ["W9"], "kind": "joint/joint", "old": None, "new": "x",
             "verdict": "review", "by": "x"}  # fmt: skip
    file.write_text(json.dumps({"approvals": [entry]}))
    told = run(tmp_path, "--approvals", str(file))
    assert "approval that fits no change here: W9" in told.output


def test_what_cannot_be_used(tmp_path: Path) -> None:
    for arguments, said in (
        (("--approvals", str(tmp_path / "none.json")), "no such file"),
        (("--approve", "x"), "--approvals FILE"),
        (("--approvals", str(tmp_path / "a.json"), "--approve", " "), "--approve needs a name"),
    ):
        failed = run(tmp_path, *arguments)
        # The program ends with 2 (tests/cli); click by itself with 1 or 2.
        assert failed.exit_code in (1, 2) and said in failed.output, failed.output


@pytest.mark.parametrize(
    ("fail_on", "code"), [("re-approve", 0), ("review", 1), ("note", 1), ("never", 0)]
)
def test_fail_on(tmp_path: Path, fail_on: str, code: int) -> None:
    (tmp_path / "a.hts").write_text(text_of(P22))
    (tmp_path / "b.hts").write_text(text_of(P22).replace('"WPS-12"', '"WPS-13"'))
    sides = [str(tmp_path / "a.hts"), str(tmp_path / "b.hts")]
    found = CliRunner().invoke(command, [*sides, "--fail-on", fail_on])
    # Without the library it uses the text has errors, on both sides: for review, too.
    assert found.exit_code == code, found.output
