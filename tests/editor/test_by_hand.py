"""What a text can use, and the address a word stands in: a few of each, by hand."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory
from types import SimpleNamespace as Stub
from typing import Any

from hts.base.findings import Finding, Kind, Label
from hts.base.text import Source
from hts.editor.actions import _by_rule, _verdict, _waivable, _waiver
from hts.editor.buffer import Buffer, uri_of
from hts.editor.look import _use_of
from hts.editor.names import _whole_address
from hts.editor.outline import Outline
from hts.editor.proof import Refused
from hts.editor.snippets import value_snippet
from hts.editor.workspace import Workspace
from tests.rows import each_row


def test_a_text_can_use_those_beside_it_and_not_itself(tmp_path: Path) -> None:
    """Those of its folder and below it first, then by how deep they lie and by name."""
    (tmp_path / "hts.toml").write_text("")
    for name in ("jobs/a.hts", "jobs/b.hts", "jobs/deep/c.hts", "library.hts", "more/d.hts"):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text("spec 1\n")
    workspace = Workspace([str(tmp_path)], "utf-16")
    own = Buffer(uri_of(str(tmp_path / "jobs" / "a.hts")), "spec 1\n", 1, "utf-16")
    files = ["b.hts", "deep/c.hts", "../library.hts", "../more/d.hts"]
    assert workspace.files_for(own) == files
    new = Buffer(uri_of(str(tmp_path / "jobs" / "new.hts")), "spec 1\n", 1, "utf-16")
    assert workspace.files_for(new) == ["a.hts", *files]


def test_the_address_a_word_stands_in() -> None:
    """All of the value, without blanks; the word alone where it has no value."""
    place: Any = Stub(word="T5", value_span=Stub(text="W12 / thermocouples / T5"))
    assert _whole_address(place) == "W12/thermocouples/T5"
    place.value_span = None
    assert _whole_address(place) == "T5"


@each_row(
    ("path", "place"),
    [
        # A library, a book of one's own, a table of welds, wherever a folder is named or linked.
        ("jobs/lib.hts", "lib.hts"), ("book.yaml", "../book.yaml"),
        ("jobs/welds.csv", "./welds.csv"), ("linked/lib.hts", "lib.hts"),
        # What a used file uses in its turn is told at the first that is used.
        ("jobs/other.hts", "more.hts"), ("lib.hts", "more.hts"), (None, "more.hts"),
    ],
)  # fmt: skip
def test_where_a_text_names_another_file(path: str | None, place: str) -> None:
    with TemporaryDirectory() as folder:
        root = Path(folder)
        (root / "jobs").mkdir()
        (root / "linked").symlink_to("jobs")

        def named(name: str) -> Any:
            return Stub(path=name, place=lambda field: (field, name))

        spec: Any = Stub(
            source=Stub(path=str(root / "jobs/a.hts"), span=lambda start, end: (start, end)),
            file=Stub(
                uses=[named("more.hts"), named("lib.hts")], books=[named("../book.yaml")],
                weld_lists=[named("./welds.csv")],
            ),
        )  # fmt: skip
        other: Any = Stub(path=None if path is None else str(root / path))
        assert _use_of(spec, other) == ("path", place)
        spec.file.uses = []
        named_there = path in ("book.yaml", "jobs/welds.csv")
        assert _use_of(spec, other) == (("path", place) if named_there else (0, 0))


@each_row(
    ("verdicts", "told"),
    [
        ([], "no change of meaning"),
        (["re-approve hold"], "re-approve hold"),
        (["note unreadable text gone", "review width"], "review width"),
        (["note unreadable text gone"], "note unreadable text gone"),
        (["review a", "re-approve b"], "review a"),
    ],
)
def test_which_change_an_offer_tells(verdicts: list[str], told: str) -> None:
    assert _verdict(verdicts) == told


@each_row(
    ("address", "floor", "waivable"),
    [
        ("W1/a", "note", True),
        ("", "note", False),
        ("W1/a", "error", False),
        ("W1 a", "note", False),
    ],
)
def test_what_a_waiver_is_offered_for(address: str, floor: Any, waivable: bool) -> None:
    source = Source("spec 1", "a.hts")
    kind = Kind("X101", "odd", "error", "Summary.", "Why.", "Fix.", floor)
    finding = Finding(kind, "odd", Label(source.span(0, 4)), address=address)
    assert _waivable(finding) is waivable
    for text, before in (("spec 1", "\n\n"), ("spec 1\n", "\n")):
        data = _waiver(Stub(source=Stub(text=text)), finding)  # type: ignore[arg-type]
        ((start, end, new),) = data["edits"]
        assert (start, end) == (len(text), len(text))
        assert new.startswith(f"{before}waive odd on {address} {{")


@each_row(
    ("line", "word", "offered"),
    [
        ("governing thickness 20 mm", "20", True), ("governing thickness by rule", "by", False),
        ("governing thickness", "thick", False), ("governing thickness 20 mm", "govern", True),
        ("axis horizontal", "horiz", False), ("", "nothing", False),
    ],
)  # fmt: skip
def test_by_rule_in_place_of_a_value(line: str, word: str, offered: bool) -> None:
    text = f"spec 1\njoint W1 {{\n  {line}\n}}\n"
    found = []

    def changes_of(fix: Any) -> list[str]:
        (edit,) = fix.edits
        found.append(text[: edit.start] + edit.text + text[edit.end :])
        return ["W1: warmer"]

    bench: Any = Stub(spec=Stub(source=Source(text, "x.hts")), changes_of=changes_of)
    made = _by_rule(bench, text.find(word) if word in text else 10)
    assert [each["title"] for each in made] == ["write `by rule` (W1: warmer)"] * offered
    assert found == [text.replace("20 mm", "by rule")] * offered
    if offered:

        def refuses(fix: Any) -> list[str]:
            raise Refused("no")

        bench.changes_of = refuses
        assert _by_rule(bench, text.index(word)) == []


def test_how_deep_blocks_are_told_apart() -> None:
    """Forty of them one in another."""
    for deep, opened in ((39, 39), (40, 40), (41, 40), (60, 40)):
        lines = Outline(Source("\n".join([" zone {"] * deep), "x.hts")).lines
        assert sum(line.open is not None for line in lines) == opened


@each_row(
    ("example", "snippet"),
    [
        ("690 degC", "${1:690 degC}"), ('"A335 P22"', '"${1:A335 P22}"'), ('""', '"${1:}"'),
        ('"', '${1:"}'), ('"a}$"', '"${1:a\\}\\$}"'),
    ],
)  # fmt: skip
def test_a_value_to_be_overwritten(example: str, snippet: str) -> None:
    assert value_snippet(example) == snippet
