"""Labels find room, near if they can, and never on each other."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from hts.paper.drawings.canvas import Box, Point
from hts.paper.drawings.place import Rooms, Wanted, place_all

AREA = Box(0, 0, 120, 70)
PLACES = st.builds(Point, st.floats(0, 120), st.floats(0, 70))


@given(anchors=st.lists(PLACES, min_size=1, max_size=20), taken=st.lists(PLACES, max_size=5))
def test_labels_never_meet(anchors: list[Point], taken: list[Point]) -> None:
    rooms = Rooms(AREA)
    boxes = [Box(p.x - 8, p.y - 4, p.x + 8, p.y + 4) for p in taken]
    for box in boxes:
        rooms.take(box)
    spots = place_all(rooms, [Wanted(anchor, 15, 4, 60) for anchor in anchors])
    found = [spot.box for spot in spots if spot is not None]
    for one, other in combinations(found, 2):
        assert not one.meets(other)
    assert not any(box.meets(label) for box in boxes for label in found)
    assert all(AREA.holds(label) for label in found)
    if not boxes:
        assert len(found) == len(anchors)


def test_nearest_in_the_direction_asked_for() -> None:
    spot = Rooms(AREA).place(Point(60, 35), 15, 4, 90)
    assert spot is not None
    # Straight to the right, with a leader of 2.4 mm to the middle of the label's side.
    assert spot.box == Box(62.4, 33, 77.4, 37)


def test_a_full_area_has_no_room() -> None:
    rooms = Rooms(AREA)
    rooms.take(AREA)
    assert rooms.place(Point(60, 35), 15, 4, 90) is None


def test_one_shut_in_is_placed_first() -> None:
    """A narrow lane has room for one label beside the mark; the mark that has no other place gets
    it, though it comes last."""
    rooms = Rooms(Box(0, 0, 40, 5))
    wanted = [Wanted(Point(20, 2.5), 15, 4, 90), Wanted(Point(38, 2.5), 15, 4, 270)]
    assert None not in place_all(rooms, wanted)


def test_a_label_stands_in_the_part_it_belongs_to() -> None:
    lower = Box(0, 50, 100, 100)
    rooms = Rooms(Box(0, 0, 100, 100))
    # No room is left near by below, and enough above.
    rooms.take(Box(10, 60, 100, 100))
    wanted = Wanted(Point(50, 58), 8, 9, 180, lower)
    spot = place_all(rooms.copy(), [wanted])[0]
    assert spot is not None and lower.holds(spot.box)
    assert place_all(rooms.copy(), [wanted._replace(within=Box(20, 60, 100, 100))]) == [None]
