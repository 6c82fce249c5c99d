"""Welds laid flat: their outline stepped along, and places worked out by hand."""

from __future__ import annotations

import itertools
from math import cos, hypot, pi, sqrt

import pytest

from hts.base.quantities import LENGTH, Quantity
from hts.language.model.seam import Pad, Seam, off_weld, weld_along
from tests.rows import each_row
from tests.texts import spec_of


def mm(number: float) -> Quantity:
    return Quantity.read(f"{number} mm", LENGTH)


def test_a_seam_counts_from_the_end_that_is_named() -> None:
    for hand, x in (("left", 300), ("", 300), ("right", 1700)):
        assert Seam(2000, "the head", hand).at(300, -40) == (x, -40)
        assert Seam(2000, "the head", hand).at(300) == (x, 0)


#: A pad of 200 mm by 100 mm: distance along its weld, mm off it, x and y. Corners of 20 mm: bends
#: of 31.416 mm, straights of 160 and 60 mm; the first bend is halved by the corner.
SQUARE = [
    (0, 0, -100, 50), (100, 0, 0, 50), (100, 30, 0, 80), (200, 0, 100, 50), (250, 0, 100, 0),
    (250, -10, 90, 0), (250, 25, 125, 0), (400, 0, 0, -50), (400, 15, 0, -65), (500, 0, -100, -50),
    (550, 0, -100, 0), (550, 10, -110, 0), (600, 0, -100, 50), (700, 0, 0, 50),
]  # fmt: skip
HALF, BEND = 10 * pi / 2, 10 * pi
ROUND = [
    (0, 0, -80 - 20 * cos(pi / 4), 30 + 20 * cos(pi / 4)),
    (0, 10, -80 - 30 * cos(pi / 4), 30 + 30 * cos(pi / 4)),
    (HALF, 0, -80, 50),
    (HALF + 80, 0, 0, 50),
    (HALF + 80, 5, 0, 55),
    (HALF + 160, 0, 80, 50),
    (HALF + 160 + BEND / 2, 0, 80 + 20 / sqrt(2), 30 + 20 / sqrt(2)),
    (HALF + 160 + BEND, 0, 100, 30),
    (HALF + 190 + BEND, 7, 107, 0),
    (HALF + 220 + BEND * 2, 0, 80, -50),
    (HALF + 300 + BEND * 2, 5, 0, -55),
    (HALF + 380 + BEND * 3, 0, -100, -30),
    (HALF + 410 + BEND * 3, 5, -105, 0),
    (HALF + 440 + BEND * 3, 0, -100, 30),
    (-HALF, 0, -100, 30),
]


@each_row(
    ("corner", "along", "off", "x", "y"),
    [(0, *each) for each in SQUARE] + [(20, *each) for each in ROUND],
)
def test_places_on_a_pad(corner: float, along: float, off: float, x: float, y: float) -> None:
    if corner == 0 and along % 600 in (0, 200, 500):
        # At a sharp corner the way outward is that of the side before or after it.
        assert Pad(200, 100, 0).at(along) == pytest.approx((x, y), abs=1e-9)
        return
    assert Pad(200, 100, corner).at(along, off) == pytest.approx((x, y), abs=1e-9)


@each_row("pad", [Pad(200, 100, 0), Pad(200, 100, 20), Pad(80, 80, 40),
                                 Pad(60, 120, 30), Pad(200, 100, 50)])  # fmt: skip
def test_the_weld_of_a_pad_goes_round_once(pad: Pad) -> None:
    # Straights and a circle of the corners: 2 (w + h) - 8 r + 2 pi r.
    assert pad.length == pytest.approx(2 * (pad.width + pad.height - 4 * pad.corner)
                                       + 2 * pi * pad.corner)  # fmt: skip
    assert pad.start == "upper left corner"
    steps = 4000
    points = [pad.at(pad.length * n / steps) for n in range(steps + 1)]
    went = sum(hypot(b.x - a.x, b.y - a.y) for a, b in itertools.pairwise(points))
    assert went == pytest.approx(pad.length, rel=3e-4)
    assert points[0] == pytest.approx(points[-1], abs=1e-6)
    for n in range(7, steps, 61):
        along = pad.length * n / steps
        edge, out = pad.at(along), pad.at(along, 10)
        assert hypot(out.x - edge.x, out.y - edge.y) == pytest.approx(10)
        # Outward, and square to the way: clockwise is to the right of outward.
        assert abs(edge.x) <= pad.width / 2 + 1e-9 and abs(edge.y) <= pad.height / 2 + 1e-9
        ahead = pad.at(along + pad.length / steps / 10)
        way = (ahead.x - edge.x, ahead.y - edge.y)
        normal = ((out.x - edge.x) / 10, (out.y - edge.y) / 10)
        across = normal[0] * way[0] + normal[1] * way[1]
        assert abs(across) < 0.02 * hypot(*way) or pad.corner == 0
        assert normal[0] * way[1] - normal[1] * way[0] < 0


@each_row(
    ("kind", "on_weld", "distance", "side", "expected"),
    [
        ("long seam", True, None, "", 0.0),
        ("long seam", False, None, "", None),
        ("long seam", False, 40, "side A", 40),
        ("long seam", False, 40, "side B", -40),
        ("long seam", False, 40, "upstream", None),
        ("attachment", False, 40, "on run", 40),
        ("attachment", False, 40, "on pad", -40),
        ("attachment", False, 40, "side A", None),
        ("girth butt", False, 40, "side A", None),
    ],
)
def test_beside_the_weld(
    kind: str, on_weld: bool, distance: float | None, side: str, expected: float | None
) -> None:
    assert off_weld(kind, on_weld, mm(distance) if distance else None, side) == expected


def test_the_size_of_a_weld_is_read() -> None:
    girth = spec_of("spec 1\njoint W1 {\n  kind girth butt\n}\n").joints["W1"]
    assert weld_along(girth) is None


@pytest.mark.parametrize(
    ("lines", "weld"),
    [
        ('kind long seam\nseam 2.4 m from "north head" on the left', (2400, "north head", "left")),
        ("kind long seam\nseam 2400 mm", (2400, "", "")),
        # Sizes of another kind of weld are none of this one.
        ("kind long seam", None),
        ("kind girth butt\nseam 2.4 m", None),
        ("kind attachment\nseam 2.4 m", None),
        ("kind attachment\npad 200 mm by 100 mm", (200, 100, 0)),
        ("kind attachment\npad 200 mm by 100 mm corners 20 mm", (200, 100, 20)),
        ("kind attachment\npad 200 mm by 100 mm corners 80 mm", (200, 100, 50)),
        ("kind attachment\npad 100 mm by 200 mm corners 80 mm", (100, 200, 50)),
        ("kind long seam\npad 200 mm by 100 mm", None),
    ],
)
def test_the_weld_a_text_gives(lines: str, weld: tuple[object, ...] | None) -> None:
    found = weld_along(spec_of(f"spec 1\njoint W1 {{\n{lines}\n}}\n").joints["W1"])
    assert found == weld
    assert isinstance(found, Seam) is bool(weld and "seam" in lines)
