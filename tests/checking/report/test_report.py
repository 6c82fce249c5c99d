"""What people and machines are shown."""

import json
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from hts.base.findings import Finding, Kind, Label
from hts.base.text import Source
from hts.base.text.blocks import brace_lines
from hts.checking.checker.check_paths import Results, UncheckedFile
from hts.checking.report import json_report, terminal
from hts.checking.report.place import place_in_words
from tests.rows import each_row

KIND = Kind("X101", "some-kind", "error", "Summary.", "Why it is.", "What to do.")
SPECS = Path(__file__).parents[3] / "specs"
TEXT = "joint W12 {\n\twall 25,4 mm\n}\n"


def results(*findings: Finding) -> Results:
    made = Results()
    made.checked.append("a.hts")
    made.findings += findings
    return made


def at(text: str, piece: str, message: str = "message") -> Finding:
    start = text.index(piece)
    return Finding(KIND, message, Label(Source(text, "a.hts").span(start, start + len(piece))))


def test_a_finding_says_what_where_why_and_what_to_do() -> None:
    finding = at(TEXT, "25,4")
    finding.help = "write 25.4"
    finding.notes = ("a note",)
    finding.others = (Label(finding.source.span(6, 9), "of this joint"),)
    assert terminal.write(results(finding), colour=False) == (
        "ERROR: message\n"
        "  where  joint W12, wall (a.hts:2:7)\n"
        "         wall >>25,4<< mm\n"
        "  also   of this joint: joint W12 (a.hts:1:7)\n"
        "         joint >>W12<< {\n"
        "  why    Why it is.\n"
        "  note   A note\n"
        "  do     Write 25.4\n"
        "  rule   some-kind (X101)\n"
        "\n"
        "1 file checked: 1 error\n"
    )


def test_the_reason_of_a_rule_is_told_once() -> None:
    shown = terminal.write(results(at(TEXT, "25,4"), at(TEXT, "mm")), colour=False)
    assert shown.count("Why it is.") == 1 and shown.count("What to do.") == 2


def test_no_more_than_the_line_is_marked() -> None:
    shown = terminal.write(results(at(TEXT, "W12 {\n\twall")), colour=False)
    assert "         joint >>W12 {<<\n" in shown


@each_row("width", [None, 60, 80, 120])
@each_row("meant", ["$", "z" * 3000])
@each_row("before", ["# ", "# " + "x" * 5000])
@each_row("after", ["", "y" * 5000])
def test_a_long_line_is_cut_around_the_place(
    width: int | None, meant: str, before: str, after: str
) -> None:
    shown = terminal.block(at(f"{before}{meant}{after}", meant), False, width).splitlines()
    (line,) = (line for line in shown if ">>" in line)
    assert len(line) <= (width or 200)
    assert f">>{meant[:10]}" in line and (len(meant) > 1 or "$<<" in line)
    assert (before == "# ") == line.strip().startswith("# ")


@given(st.integers(1, 300), st.text(st.characters(codec="ascii"), max_size=300))
def test_every_width_holds_the_report(width: int, message: str) -> None:
    finding = at(TEXT, "25,4", "message " + " ".join(message.split())[:200].replace(" ", " a "))
    finding.help = "one or other " * 30
    lines = terminal.block(finding, False, width).splitlines()
    longest = max(len(word) for line in lines for word in line.split())
    assert max(map(len, lines)) <= max(60, min(width, 120), 9 + longest)
    wide = terminal.block(finding, False).split()
    assert " ".join(lines).split() == wide


def test_a_place_in_words_is_the_same_from_the_lines_with_braces_alone() -> None:
    """What the joined report of several machines has of a text."""
    for path in sorted(SPECS.glob("*.hts")):
        source = Source(path.read_text(encoding="utf-8"), path.name)
        lines = source.text.split("\n")
        kept = set(brace_lines(source))
        for number, line in enumerate(lines, 1):
            start = source.line_starts[number - 1] + len(line) - len(line.lstrip())
            sparse = "\n".join(t if n in kept | {number} else "" for n, t in enumerate(lines, 1))
            there = Source(sparse, path.name)
            again = there.span(there.line_starts[number - 1] + len(line) - len(line.lstrip()), 0)
            assert place_in_words(source.span(start, start)) == place_in_words(again)


@each_row(
    ("piece", "words"),
    [
        ("power 21.6 kW", "joint W12, zone top"),
        ("T2S", "joint W12, thermocouple T2S"),
        ("on weld", "joint W12, thermocouple T1"),
        ("125 mm total", "joint W12, heating, soak band"),
        ("hold 690 .. 720", "cycle stress-relief for W12, hold"),
        ("status for construction", "job, revision B"),
        ("P-07\n", "job, follows"),
        ("spec 1", "spec"),
    ],
)
def test_a_place_has_the_words_of_the_trade(piece: str, words: str) -> None:
    source = Source((SPECS / "p22-header.hts").read_text(encoding="utf-8"), "a.hts")
    start = source.text.index(piece)
    assert place_in_words(source.span(start, start + 1)) == words


def test_a_joint_like_another_is_named_with_it() -> None:
    source = Source("joint base {\n  heating {\n    soak band 1 mm\n", "a.hts")
    assert (
        place_in_words(source.span(30, 34), "W7/heating")
        == "joint W7 like base, heating, soak band"
    )


def test_colour_is_all_that_colour_adds() -> None:
    import re

    plain = terminal.write(results(at(TEXT, "25,4")), colour=False)
    coloured = terminal.write(results(at(TEXT, "25,4")), colour=True)
    assert coloured != plain
    assert re.sub(r"\033\[[\d;]*m", "", coloured) == plain


@given(st.text(max_size=30), st.text(max_size=20))
def test_nothing_steers_the_terminal(text: str, message: str) -> None:
    made = results(Finding(KIND, message, Label(Source(text, "a.hts").span(0, len(text)))))
    made.failures.append(UncheckedFile(text, "reason"))
    shown = terminal.write(made, colour=False)
    assert shown.replace("\n", "").replace("\t", "").isprintable()


def test_machines_get_places_in_lines_and_columns() -> None:
    made = results(at(TEXT, "25,4 mm\n}"))
    made.failures.append(UncheckedFile("b.hts", "reason"))
    report = json.loads(json_report.write(made))
    assert report["findings"][0]["at"] == {
        "file": "a.hts",
        "line": 2,
        "column": 7,
        "end_line": 3,
        "end_column": 2,
        "text": "",
    }
    assert report["failures"] == [{"name": "b.hts", "reason": "reason"}]


def test_only_advice_leaves_the_exit_code_at_0() -> None:
    finding = at(TEXT, "25,4")
    assert results(finding).exit_code == 1
    finding.severity = "warning"
    assert results(finding).exit_code == 1
    finding.severity = "advice"
    assert results(finding).exit_code == 0
    made = results(finding)
    made.failures.append(UncheckedFile("b.hts", "reason"))
    assert made.exit_code == 2
