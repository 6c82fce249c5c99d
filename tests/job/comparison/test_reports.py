"""Text, JSON and Markdown: the same changes, and no text of a specification does anything there."""

from __future__ import annotations

import json
import re

from hts.job.comparison import compare
from hts.job.comparison.approvals import Judged
from hts.job.comparison.report import document, markdown, text
from hts.job.comparison.report.told import told
from tests.job.comparison.texts import changed, named, spec, text_of
from tests.rows import each_row

P22 = named("p22-header")
MANY = named("turnaround-many")


def test_text() -> None:
    found = changed(P22, ("for 2 h at most 6 h", "for 90 min at most 6 h"), ("930 mm", "93 cm"))
    said = text.write(Judged(found), representation=True)
    line = 1 + text_of(P22).split("for 2 h at most 6 h")[0].count("\n")
    assert (
        "re-approve hold time loosened: W12/stress-relief/hold-1/for\n"
        f"  - specs/p22-header.hts:{line}:31  2 h (= 120 min)\n"
        f"  + specs/p22-header.hts:{line}:31  90 min\n"
        "  why: time at temperature\n"
    ) in said
    assert "  unit or spelling at W12/heating/heated-band: 930 mm total -> 93 cm total\n" in said
    assert said.endswith(
        "specs/p22-header.hts -> specs/p22-header.hts: 3 re-approve; "
        "1 written differently only (unit or spelling)\n"
    )
    assert "\033" not in said and "\033[31;1mre-approve" in text.write(Judged(found), colour=True)


def test_values_that_read_the_same_are_told_apart() -> None:
    """A wall given in inches to the ninth place is not quite the 39.6 mm it stands for."""
    said = text.write(Judged(changed(P22, ("39.6 mm measured", "1.559055118 in measured"))))
    assert (
        "heating rate: upper limit in force loosened: W12/stress-relief/limits/heating-rate\n"
        "  - at most 138.9 degC/h above 300 degC (= 138.88888889 K/h above 300 degC)\n"
        "  + at most 138.9 degC/h above 300 degC (= 138.8888889 K/h above 300 degC)\n"
    ) in said


def test_what_several_joints_share_is_told_once() -> None:
    said = text.write(Judged(changed(MANY, ("for 1 h 15 min", "for 80 min"))))
    assert said.count("hold time tightened") == 1
    assert "the same at W24/single/hold-1/for, W25/single/hold-1/for" in said


@each_row(
    ("others", "words"),
    [
        (0, ""), (1, "  the same at W1\n"), (6, "  the same at W1, W2, W3, W4, W5, W6\n"),
        (7, "  the same at W1, W2, W3, W4, W5, W6 and 1 more\n"),
        (9, "  the same at W1, W2, W3, W4, W5, W6 and 3 more\n"),
    ],
)  # fmt: skip
def test_where_the_same_changed_as_well(others: int, words: str) -> None:
    (each,) = told(Judged(changed(P22, ("for 2 h at most 6 h", "for 90 min at most 6 h"))))[:1]
    said = text._change(each._replace(also=tuple(f"W{n}" for n in range(1, others + 1))), False)
    assert "".join(re.findall(r"  the same at .*\n", said)) == words


def test_a_change_is_placed_on_the_sides_it_has() -> None:
    """In the order older, newer; what is there on one side alone is placed there."""
    there = "    ends               closed and vented\n"
    for changes, path, places in (
        (("for 2 h at most 6 h", "for 90 min at most 6 h"), "cycle.hold.for", ["2 h", "90 min"]),
        ((there, ""), "joint.heating.ends", ["ends               closed and vented"]),
    ):
        (found,) = (each for each in changed(P22, changes).changes if each.path == path)
        assert [place.text for place in found.places] == places
    assert found.address.startswith("W12/")


def test_nothing_changed() -> None:
    judged = Judged(compare(spec(P22), spec(P22)))
    assert text.write(judged).endswith(": no change\n")
    assert json.loads(document.write(judged))["changes"] == []
    assert "| --- |" not in markdown.write(judged)


def test_json() -> None:
    found = changed(MANY, ("for 1 h 15 min", "for 80 min"))
    made = json.loads(document.write(Judged(found)))
    holds = [c for c in made["changes"] if c["kind"] == "hold time"]
    assert [c["address"] for c in holds] == [f"W{n}/single/hold-1/for" for n in (23, 24, 25)]
    assert holds[0]["old"]["value"] == "4500 s" and holds[0]["new"]["text"] == "80 min"
    line = 1 + text_of(MANY).split("for 1 h 15 min")[0].count("\n")
    assert holds[0]["old"]["at"]["line"] == line
    assert made["worst"] == "re-approve"
    # The worst first, as everywhere.
    order = [("re-approve", "review", "note").index(c["verdict"]) for c in made["changes"]]
    assert order == sorted(order)


def test_the_same_bytes_every_time() -> None:
    for write in (text.write, document.write, markdown.write):
        first, second = (
            write(Judged(changed(P22, ("for 2 h", "for 3 h"), ("T9 ", "T99 ")))) for _ in range(2)
        )
        assert first == second


NASTY = "<img src=x onerror=alert(1)> | [a](javascript:b) `c` \u202e \x1b[31m @everyone #1"


def test_no_text_is_markup_or_steers_the_terminal() -> None:
    found = changed(P22, ('client       "Tern Island Power"', f'client       "{NASTY}"'))
    page = markdown.write(Judged(found))
    (row,) = [line for line in page.split("\n") if "identity (client) changed" in line]
    assert row.replace("\\|", "").count("|") == 6
    # Every letter that could begin markup is escaped (CommonMark 6.1: a backslash before it).
    shown = row.split(" | ")[3]
    assert "onerror" in shown and not re.search(r"(?<!\\)[<>`@#\[\]]", shown)
    assert "\u202e" not in page and "\x1b" not in page
    said = text.write(Judged(found))
    assert "\x1b" not in said and "\u202e" not in said and "<U+202E>" in said
