"""Files that hold procedures and no job: what `hts check` tells about them, and what it does not.

Procedures and figures are invented; the findings are arithmetic. No source.
"""

from __future__ import annotations

import pytest

from hts.base.findings import Finding
from hts.checking.checker.run import check_spec
from hts.checking.rules.helpers.rows import MOST
from tests.rows import each_row
from tests.texts import spec_of

HEAD = """\
spec 1

procedure P-30 "Piping welds" {
  revision 1 on 2026-01-05 status for construction
  applies to p-number 1, 4, 5A
  applies to kind girth butt, branch
  applies to wall at least 5 mm at most 80 mm
"""


def findings(*lines: str, head: str = HEAD) -> list[Finding]:
    text = head + "".join(f"  {line}\n" for line in lines) + "}\n"
    return check_spec(spec_of(text, "owner.hts"))


def told(*lines: str, head: str = HEAD) -> list[tuple[str, str]]:
    return [(f.kind.name, f.message) for f in findings(*lines, head=head)]


@each_row(
    ("line", "at"),
    [
        ("heating rate at most 110 degC", "110 degC"),
        ("heating rate at most 5500 mm / t above 315 degC", "5500 mm / t"),
        ("heating rate at most 110 degC/h above 315 mm", "315 mm"),
        ("hold time at least 2.5 min/mm", "2.5 min/mm"),
        ("hold time at least 2 h + 25 K", "2 h + 25 K"),
        ("hold temperature at least 690 K", "690 K"),
        ("heated band at least 5 * t * t total", "5 * t * t"),
        ("heated band at least sqrt(inside_radius) total", "inside_radius"),
        ("holding spread at most 25 mm", "25 mm"),
        ("preheat at least 95 degC when t > 25 min", "t > 25 min"),
        ("preheat at least 95 degC when carbon > 0.3", "carbon > 0.3"),
        ("preheat at least 95 degC when p_number > 4", "p_number > 4"),
        ("hold time at least 2 h when t", "t"),
    ],
)
def test_units_that_do_not_fit(line: str, at: str) -> None:
    (found,) = findings(line)
    assert found.kind.name == "unreadable-formula"
    assert at in line and (found.at.span.text in at or at in found.at.span.text)


def test_the_gap_is_told_with_both_rows() -> None:
    (found,) = findings(
        "heating rate at most 110 degC/h above 315 degC when t <= 60 mm",
        "heating rate at most 55 degC/h above 315 degC when t > 65 mm",
    )
    assert found.message == "P-30 does not limit the heating rate where 60 mm < t <= 65 mm"
    assert found.at.span.text == "t > 65 mm"
    assert [label.span.text for label in found.others] == ["t <= 60 mm"]
    assert found.severity == "warning"


def test_the_overlap_tells_which_row_counts() -> None:
    (found,) = findings(
        "hold time at least 1 h when t <= 25 mm",
        "hold time at least 2 h when t >= 25 mm",
    )
    assert found.message == (
        "two rows of P-30 limit the hold time where t = 25 mm; at least 2 h counts there"
    )


def test_the_thickness_from_which_nothing_meets_the_rows() -> None:
    # 2 h at 2.5 min/mm: 48 mm.
    (found,) = findings("hold time at least 2.5 min/mm * t", "hold time at most 2 h")
    assert found.kind.name == "rows-exclude-each-other"
    assert found.notes == ("they do where t > 48.0 mm",)
    assert "at least 200 min and at most 2 h" in found.message


def test_a_preheat_above_the_interpass_temperature() -> None:
    (found,) = findings(
        "preheat at least 250 degC when p_number = 5A and thicker_wall > 50 mm",
        "interpass at most 240 degC when p_number in (4, 5A)",
    )
    assert found.kind.name == "rows-exclude-each-other"
    assert "interpass at most 240 degC" in found.message


@each_row(
    "lines",
    [
        # A base and rows that tighten it, step by step and case by case
        (
            "cooling rate at most 200 degC/h above 315 degC",
            "cooling rate at most 150 degC/h above 315 degC when t > 25 mm",
            "cooling rate at most 100 degC/h above 315 degC when t > 50 mm",
            "cooling rate at most 80 degC/h above 315 degC when p_number = 5A and t > 50 mm",
        ),
        # Limits for part of the cases only: the rest is the code's
        ("preheat at least 95 degC when p_number = 1 and thicker_wall > 25 mm",),
        (
            "preheat at least 95 degC when p_number = 1 and thicker_wall > 25 mm",
            "preheat at least 150 degC when p_number = 4",
        ),
        # Other temperatures from which the rate counts
        (
            "heating rate at most 200 degC/h above 315 degC when t <= 50 mm",
            "heating rate at most 100 degC/h above 425 degC when t >= 50 mm",
            "heating rate at most 100 degC/h above 315 degC when t > 50 mm",
        ),
        # A table that is continuous where its rows meet
        (
            "hold time at least 2.4 min/mm * t when t <= 50 mm",
            "hold time at least 2 h + 0.6 min/mm * (t - 50 mm) when t >= 50 mm",
        ),
        # The floor of a formula
        ("hold time at least 1 h", "hold time at least 2.4 min/mm * t", "hold time at most 6 h"),
        # One word that counts, in a fact with two
        (
            "post-weld heat treatment required when service = amine",
            "hold temperature at least 620 degC when amine_or_caustic_service = yes",
        ),
        # Conditions that only the joint at hand can decide
        (
            "cooling rate at most 100 degC/h when sqrt(inside_radius * wall) > 60 mm",
            "cooling rate at most 120 degC/h when sqrt(inside_radius * wall) < 50 mm",
        ),
        (
            "hold time at least 2 h when pad_thickness is known and t + pad_thickness > 50 mm",
            "hold time at most 4 h when t - wall > 1 mm",
        ),
        # Rows for a cycle that makes use of an option
        (
            "hold time at least 1 h",
            "hold time at least 4 h with lower-temperature hold when p_number = 1",
            "forbids lower-temperature hold when p_number != 1",
            "allows lower-temperature hold when p_number = 1",
        ),
        # Two facts, of which one decides at a time
        (
            "zones at least 2 when outside_diameter >= 200 mm and axis = horizontal",
            "zones at least 1 when outside_diameter < 200 mm",
        ),
    ],
)
def test_no_false_alarm(lines: tuple[str, ...]) -> None:
    assert told(*lines) == []


@pytest.mark.parametrize(
    ("count", "name"), [(MOST, "gap-between-rows"), (MOST + 1, "rows-not-compared")]
)
def test_more_rows_than_are_held_against_each_other(count: int, name: str) -> None:
    rows = ("preheat at least 95 degC when t <= 20 mm", "preheat at least 120 degC when t > 25 mm")
    others = ["cooling rate at most 100 degC/h above 315 degC"] * (count - len(rows))
    found = {one.kind.name for one in findings(*rows, *others)}
    assert found & {"gap-between-rows", "rows-not-compared"} == {name}


def test_a_procedure_with_an_unreadable_row_is_left_alone() -> None:
    found = told(
        "hold time at least 1 h when t <= 25 mm",
        "hold time at least 2 hours when t > 25 mm and t <= 50 mm",
        "hold time at least 3 h when t > 50 mm",
    )
    assert len(found) == 1 and "gap" not in found[0][0]


@each_row(
    ("row", "reason"),
    [
        ("asme-ix.total-hold", "asme-ix is a standard (ASME BPVC IX)"),
        ("cfr-46-56.85.thickness", "cfr-46-56.85 is a standard (46 CFR)"),
        ("asme-b31.3.hold-p5", "asme-b31.3 is a standard"),
        ("local-heating.zone-count", "local-heating has no row zone-count"),
        ("house-rules.zones", "there is no book house-rules"),
        ("zones", "it names no book"),
        ("thermocouples.spare-distance", "it limits the spare distance"),
    ],
)
def test_what_cannot_be_replaced(row: str, reason: str) -> None:
    assert told(f"zones at least 2 replaces {row}") == [
        ("unreplaceable-row", f"{row} cannot be replaced: {reason}")
    ]


@pytest.mark.parametrize(
    ("line", "row"),
    [
        ("zones at least 2", "local-heating.zones-from-nps-14"),
        ("spare distance at most 20 mm", "thermocouples.spare-distance"),
        ("governing thickness is thicker_wall", "common-practice.governing-thickness"),
    ],
)
def test_rows_of_practice_can_be_replaced(line: str, row: str) -> None:
    assert told(f"{line} replaces {row}") == []
