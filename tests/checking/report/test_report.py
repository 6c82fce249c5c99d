"""What people and machines are shown."""

import json

from hypothesis import given, settings
from hypothesis import strategies as st

from hts.base.findings import Finding, Kind, Label
from hts.base.text import Source
from hts.checking.checker.check_paths import Failure, Results
from hts.checking.report import json_report, terminal

KIND = Kind("X101", "some-kind", "error", "Summary.", "Why it is.", "What to do.")
TEXT = "joint W12 {\n\twall 25,4 mm\n}\n"


def results(*findings: Finding) -> Results:
    made = Results()
    made.checked.append("a.hts")
    made.findings += findings
    return made


def at(text: str, piece: str, message: str = "message") -> Finding:
    start = text.index(piece)
    return Finding(KIND, message, Label(Source(text, "a.hts").span(start, start + len(piece))))


def test_the_place_is_underlined() -> None:
    finding = at(TEXT, "25,4")
    finding.help = "write 25.4"
    finding.notes = ("a note",)
    finding.others = (Label(finding.source.span(6, 9), "of this joint"),)
    assert terminal.write(results(finding), colour=False) == (
        "error X101 some-kind: message\n"
        "   --> a.hts:2:7\n"
        "  2 | \twall 25,4 mm\n"
        "    | \t     ^^^^\n"
        "   --> a.hts:1:7\n"
        "  1 | joint W12 {\n"
        "    |       --- of this joint\n"
        "  note: a note\n"
        "  help: write 25.4\n"
        "\n"
        "1 file checked: 1 error\n"
    )


def test_no_more_than_the_line_is_underlined() -> None:
    shown = terminal.write(results(at(TEXT, "W12 {\n\twall")), colour=False)
    assert "    |       ^^^^^\n" in shown


def test_a_long_line_is_cut_around_the_place() -> None:
    text = "# " + "x" * 5000 + " $ " + "y" * 5000
    lines = terminal.write(results(at(text, "$")), colour=False).splitlines()
    assert max(map(len, lines)) < 200
    assert lines[2][lines[3].index("^")] == "$"


def test_colour_is_all_that_colour_adds() -> None:
    import re

    plain = terminal.write(results(at(TEXT, "25,4")), colour=False)
    coloured = terminal.write(results(at(TEXT, "25,4")), colour=True)
    assert coloured != plain
    assert re.sub(r"\033\[[\d;]*m", "", coloured) == plain


@given(st.text(max_size=30), st.text(max_size=20))
@settings(max_examples=100, deadline=None)
def test_nothing_steers_the_terminal(text: str, message: str) -> None:
    made = results(Finding(KIND, message, Label(Source(text, "a.hts").span(0, len(text)))))
    made.failures.append(Failure(text, "reason"))
    shown = terminal.write(made, colour=False)
    assert shown.replace("\n", "").replace("\t", "").isprintable()


def test_machines_get_places_in_lines_and_columns() -> None:
    made = results(at(TEXT, "25,4 mm\n}"))
    made.failures.append(Failure("b.hts", "reason"))
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
    made.failures.append(Failure("b.hts", "reason"))
    assert made.exit_code == 2
