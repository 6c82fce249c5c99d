"""Whether the welding qualification still covers the joint.

The paragraphs of ASME IX are known from quotations of them only (second hand).
"""

from hts.job.comparison import Change, Comparison
from tests.job.comparison.texts import changed, named

P22 = named("p22-header")
#: The qualification of the good text, and what it is preheated and held to.
QUALIFIED = (
    '"PQR-31" hold 8 h condition below lower critical between 690 .. 720 degC preheat 180 degC'
)


def asked(found: Comparison, kind: str) -> Change | None:
    return next((c for c in found.changes if c.area == "requalification" and c.kind == kind), None)


def answer(found: Comparison, kind: str) -> tuple[str, str]:
    change = asked(found, kind)
    assert change is not None, [c.kind for c in found.changes]
    return change.action, change.verdict


def test_heat_treatment_condition() -> None:
    """QW-407.1: each condition (none, below, above, above then below, between) by itself."""
    found = changed(
        P22,
        ("purpose                 stress relief", "purpose                 normalize and temper"),
    )
    assert answer(found, "heat-treatment condition") == ("added", "re-approve")
    change = asked(found, "heat-treatment condition")
    assert change is not None and "QW-407.1" in change.source and change.basis == "published"
    tested = QUALIFIED.replace("below lower critical", "above upper then below lower critical")
    found = changed(
        P22,
        ("purpose                 stress relief", "purpose                 normalize and temper"),
        (QUALIFIED, tested),
    )
    assert asked(found, "heat-treatment condition") is None


def test_condition_not_stated() -> None:
    text = QUALIFIED.replace("condition below lower critical ", "")
    found = changed(P22, (QUALIFIED, text))
    kind = "heat-treatment condition, undecided"
    assert answer(found, kind) == ("added", "review")
    change = asked(found, kind)
    assert change is not None and change.lacks == "the heat-treatment condition of PQR-31"


def test_time_at_temperature() -> None:
    """QW-407.2: the test piece had at least 80 % of the time; 10 h cover 12.5 h."""
    tough = QUALIFIED.replace("hold 8 h", "hold 8 h with toughness")
    # 2 h in the shop and at most 6 h here are 8 h of the 10 h that 8 h cover.
    for longest, covered in (("8 h", True), ("481 min", False)):
        found = changed(P22, (QUALIFIED, tough), ("at most 6 h", f"at most {longest}"))
        change = asked(found, "time at temperature")
        assert (change is None) == covered
    assert change is not None
    assert (change.action, change.verdict) == ("added", "re-approve")
    assert change.new is not None and "10 h" in change.new.text


def test_time_without_toughness_is_undecided() -> None:
    found = changed(P22, ("at most 6 h", "at most 9 h"))
    assert asked(found, "time at temperature") is None
    change = asked(found, "time at temperature, undecided")
    assert change is not None and change.verdict == "review"
    assert change.lacks == "whether toughness is required"


def test_preheat_drop() -> None:
    """QW-406.4: a drop of more than 100 degF (55.6 K) from that of the test piece."""
    preheat = "at least              180 degC"
    for value, covered in (("125 degC", True), ("124 degC", False)):
        found = changed(P22, (preheat, f"at least              {value}"))
        change = asked(found, "preheat drop")
        assert (change is None) == covered, value
    assert change is not None and "QW-406.4" in change.source


def test_preheat_of_the_test_piece_unknown() -> None:
    path = named("carbon-steel-butt")
    kind = "preheat drop, undecided"
    lower = changed(path, ("at least           95 degC", "at least           60 degC"))
    assert answer(lower, kind) == ("loosened", "review")
    change = asked(lower, kind)
    assert change is not None and change.lacks == "the preheat of PQR-18"
    higher = changed(path, ("at least           95 degC", "at least           120 degC"))
    assert answer(higher, kind) == ("tightened", "note")


def test_interpass_rise() -> None:
    """QW-406.4: a rise; the language does not hold the interpass temperature of a test piece."""
    kind = "interpass rise, undecided"
    for value, expected in (
        ("330 degC", ("loosened", "review")),
        ("300 degC", ("tightened", "note")),
    ):
        found = changed(P22, ("at most 315 degC", f"at most {value}"))
        assert answer(found, kind) == expected


BAKE = "bake W12 {\n  hold 300 .. 350 degC for 2 h\n  begins from preheat\n}\n\ncycle stress-relief"


def test_bake_added_and_dropped() -> None:
    """QW-406.11: a hydrogen release added or left out."""
    added = changed(P22, ("cycle stress-relief", BAKE))
    assert answer(added, "hydrogen release") == ("added", "re-approve")
    baked = QUALIFIED.replace("hold 8 h", "hold 8 h baked")
    both = changed(P22, ("cycle stress-relief", BAKE), (QUALIFIED, baked))
    assert asked(both, "hydrogen release") is None
    dropped = changed(P22, (QUALIFIED, baked))
    assert answer(dropped, "hydrogen release") == ("added", "re-approve")


def test_wall_above_the_upper_critical_temperature() -> None:
    """QW-407.4: at most 1.1 times the test piece: 36 mm cover 39.6 mm."""
    high = ("purpose                 stress relief", "purpose                 normalize and temper")
    kind = "thickness above upper critical"
    tested = QUALIFIED.replace("hold 8 h", "hold 8 h thickness 36 mm")
    assert asked(changed(P22, high, (QUALIFIED, tested)), kind) is None
    thicker = ("39.6 mm measured", "39.7 mm measured")
    found = changed(P22, high, (QUALIFIED, tested), thicker)
    assert answer(found, kind) == ("added", "re-approve")
    unknown = changed(P22, high)
    assert answer(unknown, f"{kind}, undecided") == ("added", "review")


def test_hold_beside_that_of_the_test_piece() -> None:
    """ISO 15614-1, from memory: 20 K on either side of the test piece's range (690 .. 720)."""
    kind = "hold range of the test piece, undecided"
    assert asked(changed(P22, ("hold 690 .. 720", "hold 670 .. 740")), kind) is None
    found = changed(P22, ("hold 690 .. 720", "hold 669 .. 720"))
    assert answer(found, kind) == ("added", "review")


def test_no_qualification_at_all() -> None:
    line = f"  qualified            {QUALIFIED}\n"
    found = changed(P22, (line, ""))
    undecided = {c.kind for c in found.changes if c.area == "requalification"}
    assert {"heat-treatment condition, undecided", "preheat drop, undecided"} <= undecided
