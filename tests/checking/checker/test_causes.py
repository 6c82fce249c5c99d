"""One cause is told once, and what follows from it is not."""

from __future__ import annotations

from hts.base.findings import Finding
from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import changed
from tests.rows import each_row
from tests.specs.found import SPECS, checked
from tests.texts import spec_of


def _findings(*changes: tuple[str, str], base: str = "butt") -> list[Finding]:
    return check_spec(spec_of(changed(base, changes)))


@each_row(
    ("name", "changes"),
    [
        ("unknown-book", (("asme-b31.3 edition 2018", "asme-b31.4 edition 2018"),)),
        ("unknown-edition", (("asme-b31.3 edition 2018", "asme-b31.3 edition 2017"),)),
        ("unknown-grade", (('"A335 P22"', '"A335 P222"'),)),
        ("unknown-pipe-size", (("NPS 12 schedule 120", "NPS 12 schedule 125"),)),
        ("unknown-pipe-size", (("NPS 12 schedule 120", "NPS 13 schedule 120"),)),
        ("temperature-in-wrong-unit", (("700 .. 730 degC", "700 .. 730 degF"),)),
        ("unknown-name", (("controls top    ", "controls toop   "),)),
        ("unknown-name", (("recorded by         R1", "recorded by         R2"),)),
        ("reversed-range", (("700 .. 730 degC", "730 .. 700 degC"),)),
        ("missing-unit", (("700 .. 730 degC", "700 .. 730"),)),
        ("missing-unit", (("cap width  30 mm", "cap width  30"),)),
        ("missing-entry", (("    soak band      by rule\n", ""),)),
    ],
)
def test_a_slip_has_no_further_findings(name: str, changes: tuple[tuple[str, str], ...]) -> None:
    assert [finding.kind.name for finding in _findings(*changes)] == [name]


def test_an_edition_that_is_not_there_is_told_alone_under_a_procedure_too() -> None:
    found = _findings(("asme-b31.3 edition 2018", "asme-b31.3 edition 2022"), base="procedure")
    assert [finding.kind.name for finding in found] == ["unknown-edition"]
    assert "in a procedure" in found[0].help


def test_what_joints_share_is_told_once() -> None:
    found = _findings(
        ("preheat W12 {", "joint W13, W14 like W12 { }\n\npreheat W12, W13, W14 {"),
        ("cycle stress-relief for W12 {", "cycle stress-relief for W12 for W13 for W14 {"),
        ("  heat  to 715 degC ", "  heat  to 740 degC "),
    )
    assert [finding.kind.name for finding in found] == ["hold-away-from-heat"]
    assert found[0].notes == (
        "the same at W13/stress-relief",
        "the same at W14/stress-relief",
    )


def test_a_limit_that_differs_by_joint_is_told_for_each() -> None:
    found = _findings(
        ("preheat W12 {", "joint W13 like W12 { wall 20 mm measured }\n\npreheat W12, W13 {"),
        ("cycle stress-relief for W12 {", "cycle stress-relief for W12 for W13 {"),
        ("730 degC for 2 h", "730 degC for 40 min"),
    )
    assert [(f.kind.name, f.address) for f in found if f.kind.name == "hold-too-short"] == [
        ("hold-too-short", "W12/stress-relief"),
        ("hold-too-short", "W13/stress-relief"),
    ]


def test_a_waiver_covers_one_joint_of_several() -> None:
    found = _findings(
        ("preheat W12 {", "joint W13 like W12 { }\n\npreheat W12, W13 {"),
        ("cycle stress-relief for W12 {", "cycle stress-relief for W12 for W13 {"),
        ("  hold counts         while all in range\n", ""),
        (
            "controller C1 {",
            'waive unclear-hold-count on W12/stress-relief {\n  reason "Agreed"\n'
            '  by "Welding engineer"\n  until 2027-01-31\n}\n\ncontroller C1 {',
        ),
    )
    assert [(f.kind.name, f.address) for f in found] == [
        ("unclear-hold-count", "W13/stress-relief")
    ]


def test_a_wrong_word_for_a_column_is_told_once() -> None:
    path = SPECS / "turnaround-list.hts"
    text = path.read_text("utf-8")
    found = checked(path, text.replace("wall measured needed", "wall nominal needed"))
    (told,) = [each for each in found if each.kind.name == "wall-of-other-schedule"]
    assert any("welds" in note for note in told.notes)
