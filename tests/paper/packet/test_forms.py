"""Forms and instructions of the packet, against what is worked out by hand."""

import re

import pytest

from hts.checking.rules.examples import BUTT
from hts.paper.packet import files
from tests.paper.packet.jobs import ROOT, bare, of_text, pages_of, texts_of

_SILENT = "thespecificationissilent:commonpractice,nosource"


def printed(text: str) -> str:
    (data,) = files(of_text(text)).values()
    return bare("".join(pages_of(data)))


def test_readings_expected() -> None:
    """Heating 405 K at 108 K/h is 3 h 45 min, cooling the same, the hold 2 h: 9 h 30 min, which is
    10 readings at full hours from 0 to 9, and one at the end."""
    text = bare("".join(texts_of(ROOT / "specs" / "p22-header.hts")["packet-W12.pdf"]))
    assert "Onelineevery1h,fromthestartofcontroltoitsend;11readingsareexpected" in text


def test_reading_form_has_more_lines_than_readings_and_a_column_for_each_tag() -> None:
    pages = texts_of(ROOT / "specs" / "p91-pipe.hts")["packet-W33.pdf"]
    first = next(page for page in pages if "cycle tempering: readings" in page)
    told = first[first.index("cycle tempering: readings") :]
    expected = int(re.search(r"(\d+) readings are", told).group(1))  # type: ignore[union-attr]
    # Every 30 min; 80 to 300 degC at 135 K/h, to 750 at 90 K/h, hold, 450 K down at 90 K/h.
    assert expected > 20
    heads = bare(first)
    assert "SetT1T2T3T4T5T6T7T8RemarksInitials" in heads


def test_limits_stand_on_every_page_of_a_form() -> None:
    """The columns of a form that goes on to the next page are nothing without their limits."""
    pages = texts_of(ROOT / "specs" / "p91-pipe.hts")["packet-W33.pdf"]
    forms = [bare(page).split("Fingerprint")[0] for page in pages]
    forms = [form for form in forms if "SetT1T2T3T4T5T6T7T8RemarksInitials" in form]
    assert len(forms) > 1
    for form in forms:
        heads = form.count("SetT1T2T3T4T5T6T7T8RemarksInitials")
        limits = form.count("Limitsofbake,°C305–340") + form.count("Limitsoftempering,°C740–760")
        assert heads == limits


def test_interval_assumed_where_the_text_gives_none_is_marked() -> None:
    page = next(
        page
        for page in pages_of(next(iter(files(of_text(BUTT)).values())))
        if "cycle stress-relief: readings" in page
    )
    assert "1 h‡" in page.replace("\N{NO-BREAK SPACE}", " ")
    assert "common practice or an assumption" in page


def test_what_the_specification_rules_comes_before_practice() -> None:
    text = printed(BUTT)
    ruled = "Athermocoupleislost" + bare("By the specification: change to the spare.")
    assert ruled in text and f"Aheaterislost{bare('Isolate. Replace it')}" in text
    # Heater and over-rate are not ruled in the example; power and thermocouple are.
    assert text.count(_SILENT) == 2
    without = BUTT.replace("  on thermocouple loss  change to the spare\n", "")
    assert printed(without).count(_SILENT) == 3


@pytest.mark.parametrize(("how", "direct"), [("capacitor discharge", True), ("mechanical", False)])
def test_checks_of_direct_attachment_only_where_it_is_direct(how: str, direct: bool) -> None:
    """From a site procedure, no standard: the two wires at most 6 mm (1/4 in) apart."""
    attached = "capacitor discharge legs apart 6 mm energy 100 J each leg apart"
    text = printed(BUTT.replace(attached, attached if direct else how))
    assert ("Distanceofthetwowiresonthemetal:atmost6mm(1/4in);specified:6mm." in text) == direct
    assert "Spotdryandbright" in text


def test_ledger_has_what_the_joint_had_before() -> None:
    text = bare("".join(texts_of(ROOT / "specs" / "p22-header.hts")["packet-W12.pdf"]))
    ledger = text[text.rindex("Time-at-temperaturelog") :]
    assert "holdatleast2h" in ledger
    assert "2hat700°C(1292°F)Shopheattreatmentoftheheader" in ledger
    assert "qualifiedbyPQR-31for8h" in ledger


def test_hardness_form_has_a_row_for_each_place() -> None:
    text = bare("".join(texts_of(ROOT / "specs" / "p91-pipe.hts")["packet-W33.pdf"]))
    for number in range(1, 5):
        assert f"weld{number}of4" in text
        assert f"heat-affectedzone{number}of4" in text
    assert "200HV10280HV10" in text
