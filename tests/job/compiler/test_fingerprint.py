"""The fingerprint changes with what was compiled and with nothing else."""

from pathlib import Path
from types import SimpleNamespace as Stub
from typing import Any

import pytest

from hts.checking.rules.examples import BUTT
from hts.job.compiler import compile_spec
from hts.job.compiler.fingerprint import _rows, grouped
from hts.language.model import Loader, Spec

LIBRARY = 'spec 1\n\nmaterial other { grade "A335 P11" }\n'
USING = BUTT.replace("spec 1\n", 'spec 1\n\nuse "library/more.hts"\n', 1)


def digest(
    folder: Path, text: str = USING, library: str = LIBRARY, root: Path | None = None
) -> str:
    (folder / "library").mkdir(parents=True, exist_ok=True)
    (folder / "job.hts").write_bytes(text.encode())
    (folder / "library" / "more.hts").write_bytes(library.encode())
    loader = Loader(str(root or folder))
    return compile_spec(Spec(loader.read(str(folder / "job.hts")), loader)).document.digest


def test_the_same_wherever_it_lies(tmp_path: Path) -> None:
    first = digest(tmp_path / "a")
    assert digest(tmp_path / "b" / "deeper") == first
    # Nor does it hang on where the repository begins.
    assert digest(tmp_path / "b" / "deeper", root=tmp_path) == first


def test_line_ends_do_not_count(tmp_path: Path) -> None:
    assert digest(tmp_path / "a") == digest(
        tmp_path / "b", USING.replace("\n", "\r\n"), LIBRARY.replace("\n", "\r\n")
    )


@pytest.mark.parametrize(
    ("text", "library"),
    [
        (USING + "# a remark\n", LIBRARY),
        (USING, LIBRARY + "# a remark\n"),
        (USING.replace("  ", "      "), LIBRARY.replace("{ ", "{\n").replace(" }", "\n}")),
        (USING.replace("\n", "\r\n"), LIBRARY),
        (USING.replace("degC", "°C"), LIBRARY),
    ],
)
def test_layout_and_remarks_never_outdate_paper(tmp_path: Path, text: str, library: str) -> None:
    assert text != USING or library != LIBRARY
    assert digest(tmp_path / "a", text, library) == digest(tmp_path / "b")


@pytest.mark.parametrize(
    ("text", "library"),
    [
        (USING.replace("for 2 h", "for 3 h"), LIBRARY),
        (USING.replace("for 2 h", "for 120 min"), LIBRARY),
        (USING.replace("A335 P22", "A335 P11"), LIBRARY),
        (USING, LIBRARY.replace("P11", "P5")),
        (USING.replace("edition 2018", "edition 2016"), LIBRARY),
    ],
)
def test_any_change_of_text_counts(tmp_path: Path, text: str, library: str) -> None:
    assert text != USING or library != LIBRARY
    assert digest(tmp_path / "a", text, library) != digest(tmp_path / "b")


def test_change_of_a_book_counts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = digest(tmp_path)
    from hts.job.compiler import fingerprint

    kept = fingerprint.load

    def load(name: str) -> object:
        return {**kept(name), "title": "changed"}

    monkeypatch.setattr(fingerprint, "load", load)
    assert digest(tmp_path) != before


def test_form_on_paper() -> None:
    assert grouped("3f9a01bc77de" + "0" * 52) == "3f9a-01bc-77de"


def test_what_counts_of_a_weld_list() -> None:
    """What its rows say; of one that cannot be read, its text, where there is any."""
    joints = [Stub(source=Stub(text="joint W1 { }"))]
    file: Any = Stub(weld_lists=[
        Stub(name="read", sound=True, joints=joints, table=Stub(text="a,b")),
        Stub(name="spoiled", sound=False, joints=[], table=Stub(text="a;b")),
        Stub(name="away", sound=False, joints=[], table=None),
    ])  # fmt: skip
    assert list(_rows(file)) == [
        "weld list read", '["joint W1 { }"]', "weld list spoiled", "a;b", "weld list away",
    ]  # fmt: skip
