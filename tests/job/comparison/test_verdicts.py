"""What a change asks for.

Which changes ask for approval anew is common practice, no source: material, thickness, hold, rates,
thresholds, bands, layout of heaters, zones, thermocouples, method, class of instruments, edition of
the code, what lies in the band.
"""

# The rows of a table are read one by one, whatever their width.
# ruff: noqa: E501

import pytest

from tests.job.comparison.texts import changed, kinds, named, one

P22 = named("p22-header")


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        # Direction: a maximum lowered and a minimum raised are tightened.
        ("for 2 h at most 6 h", "for 3 h at most 6 h", "treatment/hold time tightened re-approve"),
        ("for 2 h at most 6 h", "for 90 min at most 6 h", "treatment/hold time loosened re-approve"),
        ("for 2 h at most 6 h", "for 2 h at most 5 h", "treatment/longest hold tightened re-approve"),
        ("hold 690 .. 720", "hold 695 .. 715", "treatment/hold range tightened re-approve"),
        ("hold 690 .. 720", "hold 685 .. 725", "treatment/hold range loosened re-approve"),
        ("hold 690 .. 720", "hold 695 .. 725", "treatment/hold range moved re-approve"),
        ("705 degC        at most 120", "705 degC        at most 100", "treatment/rate tightened re-approve"),
        ("705 degC        at most 120", "705 degC        at most 130", "treatment/rate loosened re-approve"),
        ("start of control        300", "start of control        250", "treatment/cycle moved re-approve"),
        ("heated band        930", "heated band        950", "heating/band tightened re-approve"),
        ("heated band        930", "heated band        900", "heating/band loosened re-approve"),
        ("wall                 39.6", "wall                 38", "joint/size moved re-approve"),
        ("NPS 24", "NPS 22", "joint/size moved re-approve"),
        ("zone top           from 10:30", "zone top           from 10:45", "heating/zone moved re-approve"),
        ("T9   monitors heated edge    at 12:00", "T9   monitors heated edge    at 11:00", "measuring/thermocouple moved re-approve"),
        ("heating by resistance", "heating by induction", "heating/arrangement changed re-approve"),
        ("edition 2016", "edition 2018", "governing/book changed re-approve"),
        ('620 mm upstream at most 450', '620 mm upstream at most 500', "surroundings/limit of something nearby loosened re-approve"),
        # Stricter than approved is within what was approved.
        ("holding spread          at most 30", "holding spread          at most 25", "treatment/tolerated deviation tightened note"),
        ("holding spread          at most 30", "holding spread          at most 35", "treatment/tolerated deviation loosened re-approve"),
        ("alarm below             692", "alarm below             694", "treatment/low alarm tightened note"),
        ("alarm below             692", "alarm below             690", "treatment/low alarm loosened re-approve"),
        ("Surfaces up to 730 degC", "Surfaces up to 330 degC", "work/text for the paper changed review"),
        # What the files do not hold.
        ('"TI-RF-ISO-031 rev 2"', '"TI-RF-ISO-031 rev 3"', "joint/drawing changed review"),
        ('welding              "WPS-12"', 'welding              "WPS-13"', "qualification/welding procedure changed review"),
        ('program                 "P12 rev B"', 'program                 "P12 rev C"', "treatment/controller program changed review"),
        ('edition "2019" clause', 'edition "2021" clause', "document/referred document changed review"),
        # What nobody has to approve again.
        ("channel 9\n", "channel 29\n", "measuring/channel moved note"),
        ("circuit 3", "circuit 5", "heating/circuit changed note"),
        ('client       "Tern Island Power"', 'client       "Tern Island Steam"', "document/identity changed note"),
        ('wire lot            "K-2291"', 'wire lot            "K-2292"', "measuring/cable and calibration changed note"),
    ],
)  # fmt: skip
def test_one_change(old: str, new: str, expected: str) -> None:
    assert expected in kinds(changed(P22, (old, new)))


def test_a_review_says_what_is_missing() -> None:
    found = changed(P22, ('"TI-RF-ISO-031 rev 2"', '"TI-RF-ISO-031 rev 3"'))
    assert one(found, "joint/drawing").lacks == "what changed on it"


@pytest.mark.parametrize(
    ("old", "new"),
    [
        # QW-406.11 is asked by itself; here the bake as such.
        ("cycle stress-relief", "bake W12 {\n  hold 300 .. 350 degC for 2 h\n}\n\ncycle stress-relief"),
        ("  T10  monitors heated edge    at 6:00,   465 mm downstream  channel 14\n", ""),
        ('  hold point  "Start is released" by "Owner\'s engineer"\n', ""),
        ("accepted by \"Owner's engineer\"", ""),
    ],
)  # fmt: skip
def test_added_or_left_out_asks_for_approval(old: str, new: str) -> None:
    assert changed(P22, (old, new)).worst == "re-approve"


# By rule and stated ------------------------------------------------------------------------------


def test_a_value_now_stated_that_stays() -> None:
    """2.5 min/mm of the owner's procedure for 29.1 mm are 72.75 min (invented procedure)."""
    path = named("carbon-steel-butt")
    same = one(changed(path, ("for by rule", "for 72.75 min")), "treatment/hold time")
    assert (same.action, same.verdict) == ("changed", "note")
    longer = one(changed(path, ("for by rule", "for 75 min")), "treatment/hold time")
    assert (longer.action, longer.verdict) == ("tightened", "re-approve")
    assert longer.old is not None and longer.old.text == "by rule (72.75 min)"
    shorter = one(changed(path, ("for by rule", "for 1 h")), "treatment/hold time")
    assert (shorter.action, shorter.verdict) == ("loosened", "re-approve")


# Effects on the limits in force -------------------------------------------------------------------


def test_a_thicker_wall_reaches_hold_rate_and_band() -> None:
    found = changed(named("carbon-steel-butt"), ("29.1 mm measured", "31.8 mm measured"))
    limits = {c.path: c for c in found.changes if c.area == "limit"}
    hold = limits["hold time"]
    # The owner's procedure asks for 2.5 min/mm * t: 72.75 and 79.5 min (invented procedure).
    assert (
        hold.old
        and hold.new
        and (hold.old.text, hold.new.text)
        == (
            "at least 72.75 min",
            "at least 79.5 min",
        )
    )
    assert (hold.action, hold.verdict) == ("tightened", "re-approve")
    assert "2.5 min/mm × 31.8 mm" in hold.reason and "P-07" in hold.reason
    # min(220 degC/h, 220 degC/h * 25 mm / t): 189 and 173 degC/h.
    assert limits["heating rate"].action == "tightened"
    # ASME VIII-1 UW-40(a): the weld and on each side the lesser of the wall and 50 mm.
    soak = limits["soak band"]
    assert soak.new and soak.new.value == f"{34 * 5 + 2 * 159}/5 mm"
    # The heated band is stated: the limit only checks it.
    assert limits["heated band"].verdict == "note"


def test_a_changed_procedure_reaches_the_jobs_that_follow_it() -> None:
    """The same file, following no procedure any more."""
    found = changed(named("carbon-steel-butt"), ("  follows      P-07\n", ""))
    assert "limit/lower limit in force" in {f"{c.area}/{c.kind}" for c in found.changes}
    assert one(found, "governing/procedure").action == "removed"


def test_a_limit_that_may_or_may_not_apply_is_for_review() -> None:
    path = named("carbon-steel-butt")
    found = changed(path, ("at least           95 degC", "at least           by rule"))
    undecided = one(found, "limit/undecided limit")
    assert (undecided.verdict, undecided.lacks) == ("review", "preheat")


# The swap to a declared spare --------------------------------------------------------------------

SPARE = "  T1S  spare for T1            at 12:05   on weld            channel 5\n"
FAILED = (
    "  T1   controls top            at 12:00   on weld            channel 1   control channel 1\n"
)
SWAP = (
    (f"  {SPARE}", ""),
    (f"  {FAILED}", "    T1S controls top at 12:05 on weld channel 5 control channel 1\n"),
)


def test_a_swap_to_the_declared_spare_is_a_note() -> None:
    """Common practice, no source: the shift log is enough for it."""
    found = changed(P22, *SWAP)
    assert {c.verdict for c in found.changes if c.area == "measuring"} == {"note"}
    assert any("declared spare of T1" in c.reason for c in found.changes)
    # The procedure demands a spare for each that controls, and none is left for this one.
    broken = one(found, "check/limit or rule")
    assert broken.new is not None and "no thermocouple says `spare for T1S`" in broken.new.text


def test_a_spare_put_elsewhere_is_none() -> None:
    moved = SWAP[1][1].replace("12:05", "1:05")
    assert changed(P22, SWAP[0], (SWAP[1][0], moved)).worst == "re-approve"


def test_another_thermocouple_in_its_place_is_no_spare() -> None:
    text = SWAP[1][1].replace("T1S", "T9S")
    assert changed(P22, SWAP[0], (SWAP[1][0], text)).worst == "re-approve"


# The issue of the document -----------------------------------------------------------------------


def test_content_changed_and_revision_did_not() -> None:
    found = changed(P22, ("for 2 h at most", "for 3 h at most"))
    kept = one(found, "document/revision kept")
    assert kept.verdict == "re-approve" and "still B" in kept.reason


def test_the_history_tells_of_the_new_revision() -> None:
    moved = ("revision  B on", "revision  C on")
    found = changed(P22, ("for 2 h at most", "for 3 h at most"), moved)
    assert "no line for C" in one(found, "document/silent history").reason
    line = ("\n    B  on", '\n    C  on 2026-11-24 "Longer hold"\n    B  on')
    found = changed(P22, ("for 2 h at most", "for 3 h at most"), moved, line)
    assert not {c.kind for c in found.changes} & {"revision kept", "silent history"}


def test_a_new_signature_alone_keeps_the_revision() -> None:
    found = changed(P22, ('"Owner\'s engineer" on 2026-11-23', '"Owner\'s engineer" on 2026-11-24'))
    assert kinds(found) == ["document/signature changed note"]


def test_a_procedure_has_a_revision_of_its_own() -> None:
    found = changed(
        named("standing-orders"),
        ("hold time               at least 1 h", "hold time               at least 90 min"),
    )
    assert "P-07/revision" in {c.address for c in found.changes if c.kind == "revision kept"}
