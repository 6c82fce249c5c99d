"""One total order, and one cause once."""

from itertools import permutations

from hts.base.findings import Finding, Kind, Label, Report, ordered
from hts.base.text import Source

ONE = Kind("X101", "one", "error", "Summary.", "Why it is.", "What to do.")
TWO = Kind("X102", "two", "warning", "Summary.", "Why it is.", "What to do.")
A, B = Source("some text", "a.hts"), Source("some text", "b.hts")


def found(kind: Kind, source: Source, start: int, end: int, message: str = "m") -> Finding:
    return Finding(kind, message, Label(source.span(start, end)))


def test_the_order_does_not_depend_on_the_order_they_came_in() -> None:
    findings = [
        found(TWO, A, 0, 4),
        found(ONE, A, 5, 6),
        found(ONE, A, 5, 9),
        found(TWO, A, 5, 9),
        found(ONE, B, 0, 1),
    ]
    for mixed in permutations(findings):
        assert ordered(mixed) == findings


def test_the_same_finding_counts_once() -> None:
    report = Report()
    assert (report.cut, report.findings) == (False, [])
    for message in ("m", "m", "other"):
        report.add(found(ONE, A, 0, 4, message))
    assert [finding.message for finding in report.findings] == ["m", "other"]


def test_a_finding_has_the_severity_of_its_kind_unless_said() -> None:
    label = Label(A.span(0, 1))
    assert Finding(TWO, "m", label).severity == "warning"
    assert Finding(TWO, "m", label, severity="error").severity == "error"


def test_it_shows_its_place() -> None:
    source = Source("a\nbc", "a.hts")
    assert repr(found(ONE, source, 3, 4)) == "<X101 a.hts:2:2 m>"
