"""Workflow commands, read as the runner of GitHub Actions reads them.

Escapes: docs.github.com, "Workflow commands for GitHub Actions"; the runner's own code undoes %25,
%0D, %0A in a message, and %3A, %2C in a property as well.
"""

import re
from typing import NamedTuple

from hypothesis import given

from hts.checking.checker.results import Results, UncheckedFile
from hts.checking.report.github import MOST, write
from hts.checking.report.terminal import printable
from tests.checking.report.findings import ADVICE, ERROR, HOSTILE, any_results, finding, results


class Command(NamedTuple):
    level: str
    properties: dict[str, str]
    text: str


def undone(text: str, *more: tuple[str, str]) -> str:
    for escape, plain in (("%0D", "\r"), ("%0A", "\n"), *more, ("%25", "%")):
        text = text.replace(escape, plain)
    return text


def read(text: str) -> tuple[list[Command], list[str]]:
    """Commands, and the lines that are none."""
    commands, others = [], []
    for line in text.splitlines():
        match = re.fullmatch(r"::([a-z-]+)(?: ([^:]*))?::(.*)", line.lstrip())
        if match is None:
            others.append(line)
            continue
        pairs = [pair.partition("=") for pair in (match[2] or "").split(",")]
        properties = {key: undone(v, ("%3A", ":"), ("%2C", ",")) for key, _, v in pairs}
        commands.append(Command(match[1], properties, undone(match[3])))
    return commands, others


def test_an_annotation() -> None:
    made = finding()
    made.help = "close the gap"
    (command,), others = read(write(results(made)))
    assert command == Command(
        "warning",
        {
            "file": "a.hts",
            "line": "2",
            "endLine": "2",
            "col": "7",
            "endColumn": "11",
            "title": "X102 second-kind",
        },
        "no zone heats from 3:00 to 4:00\nhelp: close the gap",
    )
    assert others == ["1 file checked: 1 warning"]


def test_columns_only_within_a_line() -> None:
    (command,), _ = read(write(results(finding(piece="W12 {\n\twall"))))
    assert (command.properties["line"], command.properties["endLine"]) == ("1", "2")
    assert "col" not in command.properties


def test_ten_of_a_level_and_the_rest_is_counted() -> None:
    many = [finding(kind) for kind in (ERROR, ADVICE) for _ in range(13)]
    commands, others = read(write(results(*many)))
    assert [c.level for c in commands] == ["error"] * MOST + ["notice"] * MOST
    assert others == ["1 file checked: 13 errors, 13 advice (6 not shown as annotations)"]


def test_a_file_that_could_not_be_read() -> None:
    made = results()
    made.failures.append(UncheckedFile("b:c,d.hts", "not UTF-8 text"))
    (command,), _ = read(write(made))
    assert command.level == "error"
    assert command.properties["file"] == "b:c,d.hts"


def test_escapes_lead_back_to_the_text() -> None:
    for text in HOSTILE:
        (command,), _ = read(write(results(finding(message=text, file=text))))
        assert command.text == printable(text)
        assert command.properties["file"] == printable(text)


@given(any_results())
def test_no_text_becomes_a_command(made: Results) -> None:
    text = write(made)
    text.encode("utf-8")
    commands, others = read(text)
    assert len(commands) == len(made.findings) + len(made.failures)
    assert len(others) == 1
    assert {c.level for c in commands} <= {"error", "warning", "notice"}
