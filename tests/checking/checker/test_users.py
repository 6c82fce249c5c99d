"""A change of a library breaks what uses it, which is then checked, too."""

from pathlib import Path

from hts.checking.checker.check_paths import check_paths

LIBRARY = 'spec 1\nmaterial pipe-b {\n  grade "A106-B"\n}\n'
JOB = (
    'spec 1\nuse "{}"\njoint W1 {{\n  kind girth butt\n  between pipe-a and pipe-a\n'
    "  pipe NPS 10 schedule 80\n  cap width 20 mm\n}}\n"
)


def test_users_are_checked(tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()
    (tmp_path / "deep").mkdir()
    library = tmp_path / "library.hts"
    library.write_text(LIBRARY)
    (tmp_path / "by-way-of.hts").write_text('spec 1\nuse "library.hts"\n')
    (tmp_path / "deep" / "a.hts").write_text(JOB.format("../library.hts"))
    (tmp_path / "b.hts").write_text(JOB.format("by-way-of.hts"))
    (tmp_path / "other.hts").write_text("spec 1\n")
    (tmp_path / "b.results.hts").write_text("spec 1\n")
    alone = check_paths([str(library)])
    assert alone.checked == ["library.hts"] and not alone.findings
    found = check_paths([str(library)], users=True)
    assert found.checked == ["library.hts", "b.hts", "b.results.hts", "by-way-of.hts", "deep/a.hts"]
    assert {finding.kind.name for finding in found.findings} >= {"unknown-name"}
    # One that cannot be read may use it, too.
    (tmp_path / "other.hts").write_bytes(b"\xff")
    assert check_paths([str(library)], users=True).exit_code == 2
