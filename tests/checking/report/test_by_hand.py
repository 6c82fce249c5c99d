"""The line that sums up, the counts and the pieces of a report, each counted by hand."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.base.text import Source
from hts.checking.checker.results import Quieted, UncheckedFile
from hts.checking.report import junit, terminal
from tests.checking.report.findings import ADVICE, ERROR, WARNING, finding, results
from tests.rows import each_row

LOST = UncheckedFile("b.hts", "no such file")


@each_row(
    ("files", "counts", "lost", "known", "gone", "line"),
    [
        (1, (0, 0, 0), 0, 0, 0, "1 file checked: no findings"),
        (0, (0, 0, 0), 0, 0, 0, "0 files checked: no findings"),
        (2, (1, 1, 1), 0, 0, 0, "2 files checked: 1 error, 1 warning, 1 advice"),
        (2, (2, 0, 3), 0, 0, 0, "2 files checked: 2 errors, 3 advice"),
        # What could not be judged is never among what has no findings.
        (1, (0, 0, 0), 1, 0, 0,
         "1 file checked, 1 could not be judged whole: no findings in what was judged"),
        (2, (1, 0, 0), 2, 0, 0, "2 files checked, 1 could not be judged whole: 1 error"),
        (0, (0, 0, 0), 1, 0, 0, "nothing judged: 0 files checked, 1 could not be judged whole"),
        (1, (0, 0, 0), 0, 2, 0, "1 file checked: no findings; 2 known to the baseline"),
        (1, (0, 1, 0), 0, 1, 3,
         "1 file checked: 1 warning; 1 known to the baseline; 3 of the baseline no longer found"),
    ],
)  # fmt: skip
def test_the_line_that_sums_up(
    files: int, counts: tuple[int, int, int], lost: int, known: int, gone: int, line: str
) -> None:
    kinds = zip((ERROR, WARNING, ADVICE), counts, strict=True)
    made = results(*(finding(kind) for kind, many in kinds for _ in range(many)), checked=())
    made.checked += [f"{n}.hts" for n in range(files)]
    # One file that is told of twice is one file.
    made.failures += [LOST] * lost
    made.known, made.gone = known, ["x"] * gone
    assert terminal.summary(made) == f"{line}\n"
    made.quieted.append(Quieted("hts.toml:3:1", "leaves out: zone-gap"))
    assert terminal.summary(made) == f"{line}\nhts.toml:3:1 leaves out: zone-gap\n"


@each_row("quiet", [False, True])
def test_what_a_quiet_report_leaves_out(quiet: bool) -> None:
    """Advice and the line that sums up; never an error, and never what could not be read."""
    made = results(finding(ADVICE), finding(ERROR), finding(WARNING))
    made.failures.append(LOST)
    made.gone.append("X101 at W1")
    made.quieted.append(Quieted("hts.toml:3:1", "leaves out: zone-gap"))
    told = terminal.write(made, colour=False, quiet=quiet)
    words = ("ERROR:", "WARNING:", "cannot read b.hts: no such file", "no longer found: X101 at W1",
             "leaves out: zone-gap")  # fmt: skip
    assert [word for word in words if word not in told] == []
    assert ("ADVICE:" in told, "1 file checked" in told) == (not quiet, not quiet)
    assert terminal.write(results(), colour=False, quiet=True) == ""


@each_row(
    ("text", "room", "parts"),
    [
        ("  wall «25» mm", 40, ("wall ", "25", " mm")), ("\twall «25»", 40, ("wall ", "25", "")),
        # Just as long as there is room for; then blanks go, then letters on both sides.
        ("aa   «bb»   cc", 12, ("aa   ", "bb", "   cc")),
        ("aa   «bb»   cc", 11, ("aa ", "bb", " cc")), ("aa   «bb»   cc", 8, ("aa ", "bb", " cc")),
        ("aa   «bb»   cc", 7, ("… ", "bb", " cc")), ("aaaaaa«bb»cccccc", 8, ("…aa", "bb", "cc…")),
        # Of the place itself two thirds of the room, from its beginning.
        ("«bbbbbbbb»", 12, ("", "bbbbbbbb", "")), ("«bbbbbbbbb»", 12, ("", "bbbbbbb…", "")),
        ("«bbbbbbbbbbbbb»", 12, ("", "bbbbbbb…", "")), ("aa«»bb", 40, ("aa", "b", "b")),
    ],
)  # fmt: skip
def test_the_line_of_a_place(text: str, room: int, parts: tuple[str, str, str]) -> None:
    start, end = text.index("«"), text.index("»") - 1
    source = Source(text.replace("«", "").replace("»", ""), "a.hts")
    found = terminal._excerpt(Label(source.span(start, end)), 1, start + 1, room)
    assert found == parts


@each_row(
    ("text", "lead", "width", "lines"),
    [
        ("one two", "  do     ", None, ["  do     one two"]),
        ("one two", "  do     ", 16, ["  do     one two"]),
        ("one two", "  do     ", 15, ["  do     one", "         two"]),
        ("one two-three", "", 9, ["one", "         two-three"]),
        ("onetwothree", "  do     ", 12, ["  do     onetwothree"]),
    ],
)  # fmt: skip
def test_lines_that_are_wrapped(text: str, lead: str, width: int | None, lines: list[str]) -> None:
    """Words stay whole, and lines hang below where the first begins."""
    found = [line.rstrip() for line in terminal._wrapped(text, lead, width)]
    assert found == [line.rstrip() for line in lines]


@each_row(
    ("files", "kinds", "lost", "quieted", "counts"),
    [
        (1, (), 0, 0, (1, 0, 0)), (2, (ERROR, ADVICE), 0, 0, (3, 1, 0)),
        (1, (ERROR, WARNING, ADVICE), 1, 0, (4, 2, 1)), (0, (), 2, 0, (2, 0, 2)),
        (1, (WARNING,), 0, 2, (3, 1, 0)), (3, (), 1, 1, (5, 0, 1)),
    ],
)  # fmt: skip
def test_tests_failures_and_errors_of_junit(
    files: int, kinds: tuple[object, ...], lost: int, quieted: int, counts: tuple[int, int, int]
) -> None:
    """Those at the head are the sums of those of the suites, and these of the cases in them."""
    made = results(*(finding(kind) for kind in kinds), checked=())  # type: ignore[arg-type]
    made.checked += ["a.hts", "b.hts", "c.hts"][:files]
    made.failures += [LOST] * lost
    made.quieted += [Quieted("hts.toml:3:1", "leaves out: zone-gap")] * quieted
    text = junit.write(made)
    head, *suites = re.findall(r"<testsuites? [^>]*>", text)
    of = [
        tuple(
            int(re.search(rf'{word}="(\d+)"', each)[1]) for word in ("tests", "failures", "errors")
        )  # type: ignore[index]
        for each in (head, *suites)
    ]
    assert of[0] == counts == tuple(map(sum, zip(*of[1:], strict=True)))
    assert (text.count("<testcase"), text.count("<failure"), text.count("<error")) == counts
