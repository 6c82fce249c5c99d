"""Margins, guard band and allowances of a run: each figure worked by hand from the text."""

from __future__ import annotations

from math import sqrt

import pytest

from hts.checking.rules.examples import BASES
from hts.job.demands.asked import Asked
from hts.job.demands.critical import margins
from hts.job.demands.guard import guard
from tests.paper.packet.jobs import of_text
from tests.rows import each_row

BUTT = BASES["bake"]
_CYCLE = "  rate margin         10 %\n"


def asked(*lines: str, changes: tuple[tuple[str, str], ...] = ()) -> Asked:
    """The cycle of a girth butt in P22, tempered at 760 degC, held at 715 degC, with more said."""
    text = BUTT.replace(_CYCLE, "".join(f"  {line}\n" for line in lines) + _CYCLE)
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    job = of_text(text)
    (sheet,) = job.joints
    return Asked(job, sheet, next(run for run in sheet.runs if run.program.kind == "cycle"))


def test_no_guard_band_unless_asked_for() -> None:
    assert guard(asked()).rule is None
    assert guard(asked("guard band none")).width == 0


@pytest.mark.parametrize(
    ("rule", "factor"), [("one-sided 95 %", 1.645), ("expanded uncertainty", 2.0)]
)
def test_the_guard_band_of_a_rule(rule: str, factor: float) -> None:
    """Factors: ISO 14253-1:2017 (one-sided 95 %) and ILAC-G8:09/2019 (U of k = 2)."""
    run = asked(f"guard band {rule}")
    found = guard(run)
    # Type K class 1: 0.4 % of 715 degC (IEC 60584-1). Recorder +/- 1.5 K, to 1 K. A tolerance
    # is a rectangle, its half over sqrt(3); a step of the display its whole over sqrt(12).
    u = sqrt(((0.004 * 715) ** 2 + 1.5**2) / 3 + 1**2 / 12)
    assert found.standard == pytest.approx(u, rel=1e-3)
    assert found.width == pytest.approx(factor * u, rel=2e-3)
    assert found.lacks == ()


def test_without_a_resolution_only_the_errors_count() -> None:
    found = guard(asked("guard band one-sided 95 %", changes=(("  resolution  1 K\n", ""),)))
    assert found.standard == pytest.approx(sqrt(((0.004 * 715) ** 2 + 1.5**2) / 3), rel=1e-3)
    assert found.lacks == ()


def test_without_the_error_of_an_instrument_there_is_none_and_it_is_told() -> None:
    without = (("  error       +/- 1.5 degC\n", ""),)
    found = guard(asked("guard band one-sided 95 %", changes=without))
    assert (found.width, found.lacks) == (0.0, ("recorder",))


TEMPERED = ('  heat number  "H4471"\n', '  heat number  "H4471"\n  tempered     at 760 degC\n')


def test_margins_are_kept_from_the_figures_of_the_metal() -> None:
    # P22: lower critical 805 degC from memory of ASME B31.1 Table 129.3.1. The procedure keeps 30 K
    # from it; the job says more.
    (ruled,) = margins(asked())
    assert (ruled.name, ruled.figure.to("degC"), ruled.limit.to("degC")) == (
        "lower critical temperature", 805, 775
    )  # fmt: skip
    lines = ("margin below lower critical 40 K", "margin below tempering 25 K")
    first, second = margins(asked(*lines, changes=(TEMPERED,)))
    assert first.limit.to("degC") == 765
    assert (second.name, second.limit.to("degC")) == ("tempering temperature", 735)
    none = margins(asked(changes=(TEMPERED,)))[1]
    assert (none.kept, none.limit.to("degC")) == (None, 760)


def test_what_is_tempered_itself_has_no_margin_below_tempering() -> None:
    purpose = "  purpose             stress relief"
    for named, left in (("tempering", 1), ("normalize and temper", 0)):
        change = (purpose, purpose.replace("stress relief", named))
        assert len(margins(asked(changes=(TEMPERED, change)))) == left


_HOLD = "hold  700 .. 730 degC for 2 h"
_COUNTS = "  hold counts         while all in range\n"


@each_row(
    ("line", "counts", "whole"),
    [
        (_COUNTS, "", True),
        (_COUNTS.replace("all", "controlling"), "", False),
        ("", "", True),
        ("", " counts from all in range", True),
        ("", " counts from controlling in range", False),
        # What is said of the cycle goes before what is said of its hold.
        (_COUNTS, " counts from controlling in range", True),
    ],
)
def test_whether_a_hold_hangs_on_all_or_on_the_controlling(
    line: str, counts: str, whole: bool
) -> None:
    run = asked(changes=((_COUNTS, line), (_HOLD, f"{_HOLD}{counts}")))
    assert run.counts_all is whole


def test_where_control_begins_and_ends() -> None:
    run = asked(changes=(("end of control      300 degC", "end of control      280 degC"),))
    assert (run.control_start, run.control_end) == (300, 280)
