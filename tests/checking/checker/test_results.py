"""What comes of a run: counted, told apart, put in order, and made to count as settings say."""

from __future__ import annotations

import os
from typing import get_args

from hts.base.findings import Finding, Severity
from hts.checking.checker.fault import fault
from hts.checking.checker.results import Outcome, Results, UncheckedFile
from hts.checking.checker.setting import Setting, applied
from hts.checking.checker.several_roots import renamed, telling_apart
from hts.checking.checker.tasks import Task
from tests.checking.report.findings import ADVICE, ERROR, WARNING, finding
from tests.rows import each_row


@each_row(
    ("kinds", "failed", "code"),
    [
        ((), False, 0),
        ((ADVICE, ADVICE), False, 0),
        ((ADVICE, WARNING), False, 1),
        ((ERROR, ERROR, WARNING), False, 1),
        ((), True, 2),
        ((ERROR,), True, 2),
    ],
)
def test_how_many_of_each_and_how_a_run_ends(
    kinds: tuple[object, ...], failed: bool, code: int
) -> None:
    made = Results()
    made.add(Outcome("a.hts", [finding(kind) for kind in kinds]))  # type: ignore[arg-type]
    if failed:
        made.add(UncheckedFile("b.hts", "it is not there"))
    told = made.counts()
    assert list(told) == list(get_args(Severity))
    assert told == {
        "error": kinds.count(ERROR), "warning": kinds.count(WARNING), "advice": kinds.count(ADVICE)
    }  # fmt: skip
    assert made.exit_code == code


def test_findings_stand_with_their_file_and_once() -> None:
    made = Results()
    library = finding(message="in a library", file="library.hts")
    again = finding(message="in a library", file="library.hts")
    second = finding(message="second", piece="pipe", file="a.hts")
    made.add(Outcome("b.hts", [finding(file="b.hts"), library]))
    made.add(Outcome("a.hts", [second, finding(message="first", file="a.hts"), again]))
    made.arrange()
    order = [(f.source.name, f.message) for f in made.findings]
    assert order == [
        ("b.hts", "no zone heats from 3:00 to 4:00"), ("a.hts", "first"), ("a.hts", "second"),
        ("library.hts", "in a library"),
    ]  # fmt: skip


@each_row(
    ("kind", "found_as", "set_to", "severity"),
    [
        (WARNING, "warning", "advice", "advice"),
        (WARNING, "warning", "error", "error"),
        (ERROR, "error", "warning", "warning"),
        # A figure from memory made it less than the rule is: it is no error whatever is set.
        (ERROR, "warning", "error", "warning"),
        (ERROR, "warning", "advice", "advice"),
        (WARNING, "warning", None, "warning"),
    ],
)
def test_a_severity_that_is_set(
    kind: object, found_as: Severity, set_to: Severity | None, severity: str
) -> None:
    one = finding(kind, severity=found_as)  # type: ignore[arg-type]
    other = finding(ADVICE)
    sets = () if set_to is None else ((one.kind.code, set_to),)
    found: list[Finding] = applied(Setting(severities=sets), [one, other])
    assert [f.severity for f in found] == [severity, "advice"]
    assert applied(Setting(ignored=frozenset([one.kind.code])), [one, other]) == [other]


def task(root: str, name: str) -> Task:
    return Task(root, name, os.path.join(root, name), None, None)  # type: ignore[arg-type]


@each_row(
    ("tasks", "prefixes"),
    [
        ([("/a", "x.hts"), ("/a", "y.hts")], {}),
        ([("/p/a", "x.hts"), ("/p/b", "y.hts")], {}),
        ([("/p/a", "x.hts"), ("/p/b", "x.hts")], {"/p/a": "a/", "/p/b": "b/"}),
        ([("/p", "x.hts"), ("/p/b", "x.hts")], {"/p": "", "/p/b": "b/"}),
    ],
)
def test_files_of_several_repositories(
    tasks: list[tuple[str, str]], prefixes: dict[str, str]
) -> None:
    assert telling_apart([*(task(*one) for one in tasks), UncheckedFile("z", "")]) == prefixes


def test_a_renamed_outcome_points_into_renamed_texts_once() -> None:
    first, second = finding(file="x.hts"), finding(file="x.hts")
    made = renamed(Outcome("x.hts", [first], waived=((second, "why"),)), "b/")
    assert isinstance(made, Outcome)
    assert (made.name, first.source.name, second.source.name) == ("b/x.hts",) * 3
    renamed(made._replace(name="x.hts"), "b/")
    assert first.source.name == "b/x.hts"
    assert renamed(UncheckedFile("x.hts", "why"), "b/") == UncheckedFile("b/x.hts", "why")
    assert renamed(made, "") is made


def test_a_fault_names_kind_and_place_and_is_cut() -> None:
    try:
        telling_apart(5)  # type: ignore[arg-type]
    except TypeError as error:
        told = fault(error)
    assert "(TypeError: 'int' object is not iterable at hts/checking/checker/several_" in told
    assert "so this is not judged" in told
    # The first 120 letters of what was said.
    told = fault(ValueError("x" * 119 + "yz"))
    assert "x" * 119 + "y)" in told and "z)" not in told
