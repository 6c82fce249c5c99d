"""Generated files match their sources, and a wrong source is refused with its place and reason."""

import json
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from hts.base.data import MissingData, load
from hts.base.text.yaml_loader import yaml_loader
from hts.generate import ROOT, GenerateError, Stale, __main__, generated, stale, write
from hts.generate.data import FactLoader, generate


def test_every_generated_file_is_fresh() -> None:
    # When this fails: python -m hts.generate
    assert [(item.path, item.reason) for item in stale()] == []


def test_schemas_are_valid_schemas() -> None:
    folder = os.path.join(ROOT, "hts/base/data")
    schemas = [name for name in os.listdir(folder) if name.endswith(".schema.json")]
    assert {"pipe.schema.json", "grades.schema.json"} <= set(schemas)
    for name in schemas:
        Draft202012Validator.check_schema(json.loads(Path(folder, name).read_text("utf-8")))


@pytest.fixture
def data_root(tmp_path: Path) -> Path:
    """A repository that holds the pipe and grade data only."""
    folder = tmp_path / "hts" / "base" / "data"
    folder.mkdir(parents=True)
    for name in ("pipe", "grades"):
        for ending in (".yaml", ".schema.json"):
            shutil.copy(os.path.join(ROOT, "hts/base/data", name + ending), folder)
    return tmp_path


def test_compiled_text_is_compact_sorted_and_equal_to_the_source(data_root: Path) -> None:
    for path, text in generate(str(data_root)).items():
        source = (data_root / "hts/base/data" / Path(path).with_suffix(".yaml").name).read_text(
            "utf-8"
        )
        assert json.loads(text) == yaml.load(source, yaml_loader())
        assert text.endswith("}\n") and "\n" not in text[:-1] and '": ' not in text
        assert list(json.loads(text)) == sorted(json.loads(text))


def test_numbers_stay_exact_and_dates_stay_text() -> None:
    data = yaml.load('a: "25.40"\nb: 2024-01-31\n', Loader=FactLoader)
    assert data == {"a": "25.40", "b": "2024-01-31"}


@pytest.mark.parametrize("text", ["a: 1\na: 2\n", "a: !!python/name:os.system\n", "a: [1\n"])
def test_doubtful_yaml_is_refused(data_root: Path, text: str) -> None:
    (data_root / "hts/base/data/pipe.yaml").write_text(text)
    with pytest.raises(GenerateError, match=r"hts/base/data/pipe\.yaml"):
        generate(str(data_root))


Data = dict[str, Any]


def _without(*steps: str | int) -> Callable[[Data], None]:
    def change(data: Any) -> None:
        for step in steps[:-1]:
            data = data[step]
        del data[steps[-1]]

    return change


def _with(value: Any, *steps: str | int) -> Callable[[Data], None]:
    def change(data: Any) -> None:
        for step in steps[:-1]:
            data = data[step]
        data[steps[-1]] = value

    return change


MUTATIONS: list[tuple[str, Callable[[Data], None], str]] = [
    ("pipe", _without("sizes", 3, "basis"), "sizes/3: 'basis' is a required property"),
    ("pipe", _without("walls", 5, "basis"), "walls/5: 'basis' is a required property"),
    ("pipe", _without("walls", 5, "confidence"), "walls/5: 'confidence'"),
    ("pipe", _without("walls", 5, "source"), "walls/5: 'source'"),
    ("pipe", _with(12.7, "walls", 5, "mm"), "walls/5/mm: 12.7 is not of type 'string'"),
    ("pipe", _with("hearsay", "walls", 5, "basis"), "walls/5/basis: 'hearsay' is not one of"),
    ("pipe", _with(["45"], "walls", 5, "schedules"), "walls/5/schedules/0: '45' is not one of"),
    ("pipe", _with("1/3", "sizes", 0, "nps"), "sizes/0/nps: '1/3' does not match"),
    ("pipe", _with("x", "walls", 0, "extra"), "walls/0: Additional properties"),
    ("grades", _without("grades", 0, "ac1", "basis"), "grades/0/ac1: 'basis' is a required"),
    ("grades", _without("grades", 0, "pwht", "high"), "grades/0/pwht: 'high' is a required"),
    ("grades", _without("grades", 0, "p_number", "group"), "grades/0/p_number: 'group'"),
    ("grades", _with("60", "grades", 0, "tensile_minimum", "value"), "tensile_minimum/value: '60'"),
    ("grades", _with("sure", "grades", 0, "ac1", "confidence"), "grades/0/ac1/confidence"),
    ("grades", _with("x", "grades", 0, "ac1", "extra"), "grades/0/ac1: Additional properties"),
]


@pytest.mark.parametrize(("name", "change", "expected"), MUTATIONS)
def test_breach_of_a_schema_is_explained(
    data_root: Path, name: str, change: Callable[[Data], None], expected: str
) -> None:
    path = data_root / "hts/base/data" / f"{name}.yaml"
    # What is compiled says the same as its source, and is read far sooner; JSON is YAML. The first
    # rows of each list will do.
    data = json.loads((Path(ROOT) / "hts/base/data/compiled" / f"{name}.json").read_text("utf-8"))
    data = {key: rows[:9] if isinstance(rows, list) else rows for key, rows in data.items()}
    for other in {"pipe", "grades"} - {name}:
        (path.parent / f"{other}.yaml").unlink()
    change(data)
    path.write_text(json.dumps(data), "utf-8")
    with pytest.raises(GenerateError) as caught:
        generate(str(data_root))
    assert str(caught.value).startswith(f"hts/base/data/{name}.yaml:")
    assert expected in str(caught.value)


def test_breach_names_the_line(data_root: Path) -> None:
    path = data_root / "hts/base/data/pipe.yaml"
    lines = path.read_text("utf-8").splitlines()
    wrong = next(n for n, line in enumerate(lines) if '{nps: "8", dn' in line)
    lines[wrong] = lines[wrong].replace(", basis: memory", "")
    path.write_text("\n".join(lines), "utf-8")
    with pytest.raises(GenerateError, match=rf"^hts/base/data/pipe\.yaml:{wrong + 1}: sizes/\d+: "):
        generate(str(data_root))


def test_missing_schema_is_named(data_root: Path) -> None:
    (data_root / "hts/base/data/books").mkdir()
    (data_root / "hts/base/data/books/some.yaml").write_text("a: b\n")
    with pytest.raises(
        GenerateError, match=r"books/some\.yaml: needs hts/base/data/book\.schema\.json"
    ):
        generate(str(data_root))


def test_books_share_a_schema_and_have_a_folder(data_root: Path) -> None:
    (data_root / "hts/base/data/books").mkdir()
    (data_root / "hts/base/data/books/some.yaml").write_text("a: ä\n", "utf-8")
    (data_root / "hts/base/data/book.schema.json").write_text('{"type": "object"}')
    assert generate(str(data_root))["hts/base/data/compiled/books/some.json"] == '{"a":"ä"}\n'


def test_stale_missing_and_left_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    files = {"hts/base/data/compiled/a.json": "1\n", "hts/base/data/compiled/books/b.json": "2\n"}
    monkeypatch.setattr("hts.generate.generated", lambda root: files)
    folder = tmp_path / "hts/base/data/compiled"
    folder.mkdir(parents=True)
    (folder / "a.json").write_text("1\r\n", newline="")
    (folder / "old.json").write_text("3\n")
    root = str(tmp_path)
    assert [tuple(item) for item in stale(root)] == [
        ("hts/base/data/compiled/a.json", "out of date", "1\n"),
        ("hts/base/data/compiled/books/b.json", "missing", "2\n"),
        ("hts/base/data/compiled/old.json", "left over", None),
    ]
    write(stale(root), root)
    assert stale(root) == [Stale("hts/base/data/compiled/old.json", "left over", None)]


def test_command_line(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    items = [Stale("x.json", "missing", "1\n")]
    written: list[Stale] = []
    monkeypatch.setattr(__main__, "stale", lambda: items)
    monkeypatch.setattr(__main__, "write", written.extend)
    assert __main__.main(["--check"]) == 1
    assert capsys.readouterr().out == "x.json: missing\n"
    assert not written
    assert __main__.main([]) == 0
    assert capsys.readouterr().out == "x.json: written\n"
    assert written == items
    items.clear()
    assert __main__.main(["--check"]) == 0


def test_load() -> None:
    assert load("pipe") is load("pipe")
    assert json.loads(generated()["hts/base/data/compiled/pipe.json"]) == load("pipe")
    with pytest.raises(MissingData, match=r"'nothing'.*python -m hts\.generate"):
        load("nothing")
