"""A layout that changes more than white space is refused."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from hts.base.findings import Report
from hts.base.text import Source
from hts.language.layout import layout, settled
from hts.language.layout.layout_errors import LAYOUT_GUARD
from tests.rows import each_row

TEXT = """\
spec 1

# the first joint
joint W1 {
  wall  25.4 mm measured
  pipe  1 1/2 in  # bore
}
"""


def break_layout(monkeypatch: pytest.MonkeyPatch, change: Callable[[str], str]) -> None:
    sound = layout.laid_out
    monkeypatch.setattr(layout, "laid_out", lambda tree: change(sound(tree)))


@pytest.mark.parametrize(
    ("old", "new", "at"),
    [
        ("25.4 mm", "254 mm", "25.4 mm"),
        ("25.4 mm", "25 .4 mm", "25.4 mm"),
        ("1 1/2 in", "11/2 in", "1 1/2 in"),
        ("measured", "nominal", "measured"),
        (" measured", "\nmeasured", "measured"),
        ("25.4 mm measured", "measured 25.4 mm", "25.4 mm"),
        ("  # bore", "", "# bore"),
        ("# bore", "# Bore", "# bore"),
        ("# the first joint\n", "", "# the first joint"),
        ("wall", "# wall", "wall"),
        ("joint W1 {\n", "joint W1 {\n}\n{\n", ""),
        ("}\n", "}}\n", ""),
        ("}\n", "", ""),
        ("joint W1", "x {\n}\njoint W1", ""),
    ],
)
def test_a_layout_that_changes_the_text_is_refused(
    monkeypatch: pytest.MonkeyPatch, old: str, new: str, at: str
) -> None:
    assert TEXT.count(old) == 1
    break_layout(monkeypatch, lambda text: text.replace(old, new))
    report = Report()
    source = Source(TEXT, "text.hts")
    assert settled(source, report) is None
    (finding,) = report.findings
    assert finding.kind is LAYOUT_GUARD
    assert finding.kind.code == "F101"
    if at:
        assert finding.at.span.start == TEXT.index(at)


def test_comments_that_change_places_are_noticed(monkeypatch: pytest.MonkeyPatch) -> None:
    def exchange(text: str) -> str:
        return (
            text.replace("# bore", "#")
            .replace("# the first joint", "# bore")
            .replace("  #\n", "  # the first joint\n")
        )

    break_layout(monkeypatch, exchange)
    report = Report()
    assert settled(Source(TEXT, "text.hts"), report) is None
    assert report.findings[0].kind is LAYOUT_GUARD


def test_a_layout_that_is_not_its_own_layout_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    passes = [""]

    def drift(text: str) -> str:
        passes.append(" ")
        return text.replace("mm", "".join(passes) + "mm")

    break_layout(monkeypatch, drift)
    report = Report()
    assert settled(Source(TEXT, "text.hts"), report) is None
    assert "twice" in report.findings[0].message


@each_row(
    ("written", "standard"),
    [
        ("705 °C", "705 degC"),
        ("400°F/h", "400 degF/h"),
        ("690 … 720 K", "690 .. 720 K"),
        ("705 ± 15 K", "705 +/- 15 K"),
    ],
)
def test_other_spellings_of_the_same_are_let_pass(written: str, standard: str) -> None:
    report = Report()
    assert settled(Source(f"a {written}\n", "text.hts"), report) == f"a {standard}\n"
