"""A finding stays the same one when lines move and words change, and is another with its values."""

from hts.base.findings import Edit, Finding, Fix, Kind, Label
from hts.base.findings.identity import digest_of, fingerprints, identity
from hts.base.text import Source

ONE = Kind("X101", "one", "error", "Summary.", "Why it is.", "What to do.")
TEXT = "a line\nanother line\n"


def found(message: str, address: str = "W1", at: int = 0, kind: Kind = ONE) -> Finding:
    return Finding(kind, message, Label(Source(TEXT, "a.hts").span(at, at + 1)), address=address)


def test_the_values_of_a_message() -> None:
    message = "`hold` is 2.5 h, 'at least' \"3 h\" by UW-40: lines 12 and line 7 say +/-5 degC."
    assert identity(found(message)) == (
        "a.hts", "X101", "W1", ("hold", "2.5", "at least", "3 h", "UW-40", "+/-5"),
    )  # fmt: skip


def test_what_makes_no_difference_and_what_does() -> None:
    first = fingerprints([found("the hold of 2 h on line 3 is short of 3 h")])
    same = [found("held 2 h where line 8 asks for 3 h", at=9)]
    assert fingerprints(same) == first
    warning = Kind("X102", "one", "error", "Summary.", "Why it is.", "What to do.")
    for other in (
        found("the hold of 2 h is short of 4 h"),
        found("the hold of 2 h is short of 3 h", address="W2"),
        found("the hold of 2 h is short of 3 h", kind=warning),
    ):
        assert fingerprints([other]) != first


def test_equal_ones_are_told_apart_by_their_number() -> None:
    three = [found("2 h"), found("2 h", at=9), found("2 h", at=3)]
    made = fingerprints(three)
    assert len(set(made)) == 3
    assert fingerprints(three[:2]) == made[:2]
    assert all(len(digest) == 64 for digest in made)


def test_no_letter_moves_between_the_parts_of_a_digest() -> None:
    parts = [(), ("",), ("a", "b"), ("ab",), ("ab", ""), ("", "ab"), ("a", "", "b"), ("\udc80",)]
    assert len({digest_of(*each) for each in parts}) == len(parts)


def test_edits_are_made_from_the_end() -> None:
    edits = (Edit(0, 1, "one"), Edit(2, 6, ""), Edit(6, 6, "!"))
    for order in (edits, edits[::-1]):
        assert Fix("write it", "offered", order).applied(TEXT) == "one !\nanother line\n"


def test_the_lowest_severity_a_team_may_give() -> None:
    lowest = {
        kind: Kind("X1", "n", kind, "", "", "").lowest for kind in ("error", "warning", "advice")
    }
    assert lowest == {"error": "warning", "warning": None, "advice": None}
    assert Kind("X1", "n", "error", "", "", "", "error").lowest == "error"
    assert Kind("X1", "n", "advice", "", "", "", "advice").lowest == "advice"
