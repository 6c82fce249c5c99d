"""What is asked of a run: stated, else of books and procedures, each figure read from the text."""

from __future__ import annotations

from typing import Any

import pytest

from hts.checking.rules.examples import BASES
from hts.job.demands.asked import Asked, Bound
from tests.job.demands.test_limits_of_a_run import asked
from tests.paper.packet.jobs import of_text
from tests.rows import each_row

HOLD = "hold  700 .. 730 degC for 2 h"
RULES = "  excursion        at most 10 min in total\n"


def shown(bound: Bound | None) -> str | None:
    """A bound as written; its number is the same in canonical units."""
    if bound is None:
        return None
    assert bound.value == float(bound.written.value)
    within = "" if bound.within is None else f" within {bound.within}"
    return f"{bound.written}{within}"


def rules(*lines: str, left: bool = False) -> tuple[tuple[str, str], ...]:
    """The procedure with more lines, and without its own on an excursion unless `left`."""
    return ((RULES, (RULES if left else "") + "".join(f"  {line}\n" for line in lines)),)


@each_row(
    ("lines", "changes", "expected"),
    [
        # The procedure of the example tolerates 10 min, all times added.
        ((), (), (None, "10 min", None, None)),
        (("excursion at most 8 min",), (), (None, "8 min", None, None)),
        (("excursion at most 8 min in total",), (), (None, "8 min", None, None)),
        # What an owner allows in total is not replaced by what a job allows each time.
        (("excursion at most 8 min each",), (), ("8 min", "10 min", None, None)),
        (("excursion at most 12 min in total",), (), (None, "10 min", None, None)),
        (("excursion at most 8 min each", "excursion at most 9 min in total"), (),
         ("8 min", "9 min", None, None)),
        ((), rules(), (None, None, None, None)),
        (("rate excursion at most 5 min each",), rules(), (None, None, "5 min", None)),
        (("rate excursion at most 5 min in total",), rules(), (None, None, None, "5 min")),
        (("rate excursion at most 5 min",), rules("rate excursion at most 4 min each"),
         (None, None, "4 min", "5 min")),
        (("rate excursion at most 5 min each",), rules("rate excursion at most 4 min each"),
         (None, None, "4 min", None)),
        (("rate excursion at most 3 min each",), rules("rate excursion at most 4 min each"),
         (None, None, "3 min", None)),
    ],
)  # fmt: skip
def test_what_is_tolerated(lines: Any, changes: Any, expected: tuple[str | None, ...]) -> None:
    run = asked(*lines, changes=changes)
    assert (
        shown(run.excursion_each), shown(run.excursion_total), shown(run.rate_excursion_each),
        shown(run.rate_excursion_total),
    ) == expected  # fmt: skip


@each_row(
    ("lines", "expected"),
    [
        ((), ["25 K"]),
        # A spread over any distance speaks for one over each; over 1 m not for any distance.
        (("holding spread at most 20 K",), ["20 K"]),
        (("holding spread at most 20 K within 1 m",), ["20 K within 1 m", "25 K"]),
        (("holding spread at most 40 K",), ["40 K"]),
    ],
)
def test_spreads(lines: Any, expected: list[str]) -> None:
    run = asked(*lines)
    assert [shown(bound) for bound in run.holding_spreads] == expected
    # The procedure's 140 K while heating holds over any distance.
    assert [shown(bound) for bound in run.heating_spreads] == ["140 K"]


def test_a_spread_over_a_distance_speaks_for_shorter_ones() -> None:
    rule = (("  heating spread   at most 140 K\n",
             "  heating spread at most 140 K within 4.6 m\n"),)  # fmt: skip
    for stated, kept in (("5 m", []), ("4.6 m", []), ("4.5 m", ["140 K within 4.6 m"])):
        run = asked(f"heating spread at most 100 K within {stated}", changes=rule)
        found = [shown(bound) for bound in run.heating_spreads]
        assert found == [f"100 K within {stated}", *kept]


def bake(*changes: tuple[str, str]) -> Asked:
    return of_kind("bake", *changes)


def of_kind(kind: str, *changes: tuple[str, str]) -> Asked:
    text = BASES["bake"]
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    job = of_text(text)
    (sheet,) = job.joints
    return Asked(job, sheet, next(run for run in sheet.runs if run.program.kind == kind))


def test_a_bake_from_preheat() -> None:
    run = bake()
    # Control begins at 150 degC, the record anywhere up to the interpass temperature.
    assert (run.control_start, run.control_end) == (150, 150)
    assert shown(run.record_start) == "315 degC"
    assert (run.comes_hot, shown(run.kept_before)) == ("from preheat", "150 degC")
    assert (run.address, run.name, run.kind, run.joint) == ("W12/bake", "bake", "bake", "W12")
    kept = bake(("  keep until  ", "  maintain at least 120 degC\n  keep until  "))
    assert shown(kept.kept_before) == "120 degC"
    # Where each is said: the line of the entry.
    for one, line in (
        (run, "  at least          150 degC"),
        (kept, "  maintain at least 120 degC"),
    ):
        said = one.sheet.joint.entry.source.text.splitlines()
        assert one.kept_before is not None
        assert one.kept_before.why.citation == f"x.hts line {said.index(line) + 1}"
    cold = bake(("  begins            from preheat\n", "  begins            after cooling\n"))
    assert (shown(cold.record_start), cold.comes_hot, cold.kept_before) == ("150 degC", None, None)
    assert run.shares == run.means == ()
    assert run.counts_all and not run.adds_up


def test_a_cycle_and_a_preheat() -> None:
    run = of_kind("cycle")
    assert shown(run.record_start) == "300 degC"
    assert run.comes_hot is run.kept_before is None
    assert run.adds_up and run.counts_all
    assert not of_kind("cycle", ("  interrupted hold    adds up\n", "")).adds_up
    assert run.by_mean is None and run.guard is None
    # US Navy S9074-AR-GIB-010/278: the hold goes by the mean of the highest and lowest reading.
    mean = of_kind("cycle", ("asme-b31.3 edition 2018, ", "us-navy-s9074 edition 1995, "))
    assert mean.by_mean is not None and mean.by_mean.name == "us-navy-s9074"
    before = of_kind("preheat")
    assert before.greatest_preheat is None
    least = "  at least          150 degC\n"
    hot = of_kind("preheat", (least, f"{least}  at most           250 degC\n"))
    assert shown(hot.greatest_preheat) == "250 degC"


@pytest.mark.parametrize(
    ("line", "value", "assumed"),
    [("", 900, True), ("rate over 30 min", 1800, False), ("rate over 5 min", 300, False)],
)
def test_the_time_a_rate_is_judged_over(line: str, value: float, assumed: bool) -> None:
    # A quarter of an hour where the text states none: common practice, no source.
    window = asked(*([line] if line else [])).window
    assert window.value == value
    assert ("assumed" in str(window.why.note)) is assumed


@pytest.mark.parametrize(
    ("hold", "rule", "expected"),
    [
        # The procedure's 6 h; what is stated goes before.
        ("", "", "6 h"),
        (" at most 4 h", "", "4 h"),
        ("", "  hold time        at most 6 h\n", None),
    ],
)
def test_the_longest_a_hold_may_last(hold: str, rule: str, expected: str | None) -> None:
    changes = [(HOLD, HOLD + hold)] + ([(rule, "")] if rule else [])
    run = asked(changes=tuple(changes))
    (step,) = run.hold_steps
    assert shown(run.longest_of(step)) == expected
    for other in run.run.program.steps:
        if other is not step:
            assert run.longest_of(other) is None
    entry = run.segment_of(step)
    assert entry is not None and entry is run.entry.segments[step.segment - 1]


def test_shares_and_means_of_a_hold() -> None:
    run = asked("share of hold at least 50 % at heated edge", "mean of hold 705 .. 720 degC of all")
    assert [(str(share.least), share.place_) for share in run.shares] == [("50 %", "heated edge")]
    assert [tuple(map(str, mean.ends)) for mean in run.means] == [("705 degC", "720 degC")]


def test_the_thermocouples_a_hold_hangs_on() -> None:
    run = of_kind("cycle")
    # Controlling ones and those at the edge of the soak band; no spare, none of the heated edge.
    assert [one.tag for one in run.required] == ["T1", "T2", "T3", "T4"]
    assert list(run.by_tag) == [one.tag for one in run.watched]
    assert all(run.by_tag[one.tag] is one for one in run.watched)


def nearby(where: str) -> list[str]:
    changes = (
        ("  support    ", f'  nearby    "valve seat" {where}\n  support    '),
        ("    T5   monitors", "    T7   monitors nearby item at 12:00, 400 mm downstream "
                              "channel 9\n    T5   monitors"),
    )  # fmt: skip
    run = asked(changes=changes)
    (item,) = run.sheet.joint.entry.nearby
    return [one.tag for one in run.watching(item)]


@each_row(
    ("where", "tags"),
    [
        ("400 mm downstream", ["T7"]),
        ("400 mm upstream", []),
        ("401 mm downstream", []),
        ("900 mm upstream monitored by T5", ["T5"]),
        ("400 mm downstream monitored by T5", ["T5"]),
    ],
)
def test_what_watches_something_nearby(where: str, tags: list[str]) -> None:
    assert nearby(where) == tags
