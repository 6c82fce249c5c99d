"""One cause, one finding, at its exact place; what stands around it is still read."""

import tracemalloc

import pytest

from hts.base.findings import Report
from hts.base.text import Source
from hts.syntax import Tree, parse
from hts.syntax.braces import DEEPEST, MOST
from hts.syntax.syntax_errors import MOST_TOLD
from tests.rows import each_row


def read(text: str) -> tuple[Tree, list[tuple[str, str]]]:
    report = Report()
    source = Source(text, "text.hts")
    tree = parse(source, report)
    found = [
        (finding.kind.code, "{}:{}".format(*source.position(finding.at.span.start)))
        for finding in report.findings
    ]
    return tree, found


CASES = [
    # Braces.
    ("a\n  b\n}\n", "S104", "1:2"),
    ("a {\n  b\n  c\n    d\n  }\n}\n", "S104", "3:4"),
    ("a {\n  b\n", "S105", "1:3"),
    ("a {\n  b {\n    c\n\n  d\n}\n", "S105", "2:5"),
    ("a {\n  b\n\nc {\n  d\n}\n", "S105", "1:3"),
    ("a {\n  b\n}\n}\nc\n", "S106", "4:1"),
    ("}\n", "S106", "1:1"),
    ("a\n{\n  b\n}\n", "S107", "2:1"),
    ("a   # note\n\n  {\n  b\n}\n", "S107", "3:3"),
    ("{ a }\n", "S109", "1:1"),
    # Two entries on a line.
    ("a { b } c\n", "S108", "1:9"),
    ("a {\n  b\n} c 5 mm\n", "S108", "3:3"),
    # Texts, commas and characters.
    ('a "x\nb\n', "S102", "1:3"),
    ('a {\n  b "x \\n y"\n}\n', "S102", "2:5"),
    ("a 25,4 mm\n", "S103", "1:5"),
    ("a {\n  b 1,5 mm 2,5 mm\n}\n", "S103", "2:6"),
    ("a $ 3\n", "S101", "1:3"),
    ("a $ $ % ~\n", "S101", "1:3"),
    ("a\u200b\n", "S101", "1:2"),
    ("a\rb\n", "S101", "1:2"),
    ("a b; c\n", "S101", "1:4"),
    # Halves of values.
    ("a 1 ..\n", "S109", "1:5"),
    ("a .. 2\n", "S109", "1:3"),
    ("a 705 +/-\n", "S109", "1:7"),
    ("a ±\n", "S109", "1:3"),
    ("a 705 +/- +/- 15\n", "S109", "1:7"),
    ("a 1 .. {\n  b\n}\n", "S109", "1:5"),
    # Places after other line ends, tabs, and characters of one and of two UTF-16 units.
    ("# ä\r\n\r\na {\r\n\tb $\r\n}\r\n", "S101", "4:4"),
    ('"😀" $\n', "S101", "1:5"),
    ("a $", "S101", "1:3"),
]


@each_row(("text", "code", "place"), CASES)
def test_one_cause_one_finding(text: str, code: str, place: str) -> None:
    tree, found = read(text)
    assert found == [(code, place)]
    assert "".join(tree.pieces()) == text


@each_row(("text", "code", "place"), CASES)
def test_what_follows_is_read(text: str, code: str, place: str) -> None:
    tree, found = read(f"{text}\nlast 5 mm {{\n  inner\n}}\n")
    assert found[0] == (code, place)
    assert len(found) == 1
    last = tree.entries[-1]
    assert [tree.source.text[item.start : item.end] for item in last.items] == ["last", "5 mm"]
    assert last.block is not None and len(last.block.entries) == 1


def test_each_cause_is_found_in_one_pass() -> None:
    text = 'a {\n  b $\n  c 1,5\n  d "x\n  e ..\n  f { g } h\n}\n}\n'
    assert read(text)[1] == [
        ("S106", "8:1"),
        ("S101", "2:5"),
        ("S103", "3:6"),
        ("S102", "4:5"),
        ("S109", "5:5"),
        ("S108", "6:11"),
    ]


SOUND = [
    "",
    "\n",
    "# only this",
    "a",
    "a { }\n",
    "a {\n}\n",
    "a { b }\n",
    "a { # opens\n\n\n  b # here\n # there\n\n} # closes\n# last",
    "a 1,\n  2,   # why\n\n  3\n",
    "a ( 1\n  + 2\n)\n",
    "a 690..720 degC\na 690…720 degC\na 705±15 degC\n",
    "\ta\t{\r\n\t\tb\r\n\t}\r\n",
    "Wärmebehandlung 一\n",
    'a "# { } \\" \\\\ 1,5"\n',
]


@each_row("text", SOUND)
def test_sound_texts(text: str) -> None:
    tree, found = read(text)
    assert found == []
    assert "".join(tree.pieces()) == text


def test_a_bracket_never_reaches_past_its_block() -> None:
    tree, found = read("a {\n  b ( 1\n  c 2\n}\nd )\n")
    assert found == []
    assert [len(entry.items) for entry in tree.entries] == [1, 2]
    block = tree.entries[0].block
    assert block is not None and len(block.entries) == 2


@pytest.mark.parametrize("line", ['"open', "690 ..", "a ; b"])
def test_what_cannot_be_read_is_told_up_to_a_limit(line: str) -> None:
    text = f"{line}\n" * (MOST_TOLD + 500)
    tree, found = read(text)
    assert len(found) == MOST_TOLD + 1
    code, place = found[-1]
    assert (code, place.partition(":")[0]) == ("S113", str(MOST_TOLD + 1))
    assert "".join(tree.pieces()) == text


def test_blank_lines_cost_no_memory() -> None:
    """Each way back the lexer keeps in a run of lines takes some 400 bytes."""
    tracemalloc.start()
    try:
        read("a\n" + "\n" * 300_000 + "b,\n" + "#\n" * 100_000)
        assert tracemalloc.get_traced_memory()[1] < 10_000_000
    finally:
        tracemalloc.stop()


def test_blocks_too_deep_are_cut() -> None:
    text = "a {\n" * 5000 + "}\n" * 5000
    tree, found = read(text)
    assert found == [("S110", f"{DEEPEST + 1}:3")]
    assert "".join(tree.pieces()) == text


@pytest.mark.parametrize(
    "unit",
    ["}\n", "a\n  b\n}\n", "a {\n  b\n", "a }{ ", "{\n", "( ", "a ..\n", '"\n', "$ ", "1,2 ", "\r"],
)
def test_long_broken_texts_end(unit: str) -> None:
    """Every damage repeated: the walks over the text stay few, and the text stays whole."""
    text = unit * 3000
    tree, found = read(text)
    assert "".join(tree.pieces()) == text
    assert sum(code in ("S104", "S105", "S106") for code, _ in found) <= MOST


def test_a_long_text_has_the_tokens_of_its_parts() -> None:
    part = "joint W12 {\n  wall 25.4 mm measured  # note\n}\n"
    count = 1_000_000 // len(part)
    tree, found = read(part * count)
    assert found == []
    assert len(tree.tokens) == count * len(read(part)[0].tokens)
    assert len(tree.entries) == count
