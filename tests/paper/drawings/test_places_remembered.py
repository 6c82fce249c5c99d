"""Spots of labels that are remembered: the same as those found anew, whatever was taken before."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from hts.paper.drawings import place
from hts.paper.drawings.canvas import Box, Point
from hts.paper.drawings.place import Rooms, Spot

_AREA = Box(0.0, 0.0, 60.0, 40.0)
_AT = st.tuples(st.integers(0, 58), st.integers(0, 38))
_STEPS = st.lists(
    st.tuples(st.sampled_from(("word", "mark", "claim", "label", "copy")), _AT), max_size=12
)


def _spots(steps: list[tuple[str, tuple[int, int]]]) -> list[Spot | None]:
    rooms, found = Rooms(_AREA), []
    for kind, (x, y) in steps:
        box = Box(x, y, x + 6.0, y + 3.0)
        if kind == "word":
            rooms.take(box)
        elif kind == "mark":
            rooms.take_mark(box)
        elif kind == "claim":
            rooms.claim(box)
        elif kind == "copy":
            rooms = rooms.copy()
        else:
            found.append(rooms.place(Point(x, y), 8.0, 3.0, 30.0))
    found.append(rooms.place(Point(30.0, 20.0), 8.0, 3.0, 30.0))
    return found


@given(st.lists(_STEPS, min_size=2, max_size=3))
def test_what_is_remembered_is_what_is_found(histories: list) -> None:
    fresh = []
    for steps in histories:
        place._known.clear()
        fresh.append(_spots(steps))
    place._known.clear()
    for _ in range(2):
        assert [_spots(steps) for steps in histories] == fresh
