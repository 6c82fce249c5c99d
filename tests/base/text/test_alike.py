"""Names that are taken for each other on a drawing or over the telephone. Practice, no source."""

from __future__ import annotations

import pytest

from hts.base.text.alike import as_seen, foreign_letter


@pytest.mark.parametrize(
    ("names", "alike"),
    [
        (("W-101", "w101", "W0101", "W1O1", "W 101", "W_101", "W.101", "W1o1"), True),
        (("Wl2", "W12", "WI2"), True),
        (("В12", "B12"), True),
        (("Ｗ12", "W12"), True),
        (("1-12", "11-2"), False),
        (("W-1-2", "W-12"), False),
        (("W-10", "W-1"), False),
        (("W100", "W1"), False),
        (("W0", "WO"), False),
        (("W12A", "W12B"), False),
        # Signs beside a digit alone are none.
        (("-W12", "W12-"), True),
        (("1.2", "1-2", "1 2"), True),
    ],
)
def test_names_that_are_seen_alike(names: tuple[str, ...], alike: bool) -> None:
    seen = {as_seen(name) for name in names}
    assert (len(seen) == 1) is alike and (alike or len(seen) == len(names))


@pytest.mark.parametrize(
    ("name", "letter"),
    [("В12", "В"), ("W1О", "О"), ("B12", None), ("Ж12", None), ("ä1", None), ("", None)],
)
def test_a_letter_of_another_alphabet(name: str, letter: str | None) -> None:
    assert foreign_letter(name) == letter
