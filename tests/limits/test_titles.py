"""Titles as they stand on covers and in contracts lead to the book, and to no other.

The titles are those of the standards' covers, contracts' short forms are common practice.
"""

from hts.limits.books import books
from hts.limits.titles import edition_in, meant, suggestion
from tests.rows import each_row


@each_row(
    ("title", "id"),
    [
        ("46 CFR 56.85", "cfr-46-56.85"),
        ("CFR 46 56.85", "cfr-46-56.85"),
        ("ASME VIII Div 1", "asme-viii-1"),
        ("ASME Section VIII Division 1", "asme-viii-1"),
        ("ASME BPVC VIII-2:2010", "asme-viii-2"),
        ("ASME B31.3", "asme-b31.3"),
        ("ASME B31.3-2018", "asme-b31.3"),
        ("B31.1", "asme-b31.1"),
        ("asme_b31.3", "asme-b31.3"),
        ("ASME BPVC Section I", "asme-i"),
        ("ASME Section IX", "asme-ix"),
        ("BS EN 13445-4:2021", "en-13445-4"),
        ("DIN EN 1011-2", "en-1011-2"),
        ("AWS D1.1/D1.1M:2020", "aws-d1.1"),
        ("NACE SP0472", "nace-sp0472"),
        ("S9074-AR-GIB-010/278", "us-navy-s9074"),
        ("Indian Boiler Regulations", "ibr-1950"),
        ("API RP 577", "api-rp-577"),
        ("ISO 13916:2017", "iso-13916"),
    ],
)
def test_a_title_leads_to_its_book(title, id):
    assert meant(title, books()) == (id,)
    assert suggestion(title, books()) == id


@each_row(
    "title",
    ["ASME B31.4", "asme-b31.8", "49 CFR 192", "EN 13445-5", "AWS D1.5", "API 653", "", "§"],
)
def test_another_standard_is_not_taken_for_one_there_is(title):
    assert suggestion(title, books()) is None


def test_what_may_be_two_names_both():
    assert suggestion("ASME VIII", books()) == "asme-viii-1 or asme-viii-2"
    assert suggestion("ASME", books()) is None


@each_row("id", books())
def test_every_book_is_found_by_its_own_name(id):
    assert meant(id, books()) == (id,)
    assert suggestion(id.upper(), books()) == id


def test_the_year_of_a_title():
    assert edition_in("ASME B31.3-2018") == "2018"
    assert edition_in("BS EN 13445-4") is None
    assert edition_in("2014 or 2016") is None
