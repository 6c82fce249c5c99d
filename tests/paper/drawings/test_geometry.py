"""Things are drawn where arithmetic puts them."""

import math
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.paper.drawings import cycle_chart, section, unrolled
from hts.paper.drawings.along import Along
from hts.paper.drawings.track import Track
from tests.jobs import job_at
from tests.paper.drawings.reading import crosses, elements, inks, paths, words
from tests.paper.drawings.test_room import SPECS
from tests.rows import each_row
from tests.sampling import whose_turn

SIZE = (267.0, 180.0)
P22 = next(path for path in SPECS if path.stem == "p22-header")


def spots(svg: str) -> list[tuple[float, float]]:
    """Where thermocouples are drawn; the cross of the legend stands below."""
    return [(x, y) for x, y in crosses(svg) if y < 0.83 * SIZE[1]]


def middle(svg: str, text: str) -> tuple[float, float]:
    """Middle of the only text of that wording."""
    (ink,) = [ink for shown, ink in inks(svg) if shown == text]
    return (ink[0] + ink[2]) / 2, (ink[1] + ink[3]) / 2


def test_across_is_to_scale() -> None:
    job = job_at(P22)
    svg = unrolled(job, job.joints[0], SIZE)
    ends = sorted((a[0] + a[2]) / 2 for text, a in inks(svg) if text == "12:00")
    left, right = ends
    # 12:00, 3:00, 6:00 and 9:00, and spares at ten minutes past: 5 degrees, drawn apart.
    turns = {360 * (x - left) / (right - left) for x, _ in spots(svg)}
    for degrees in (0, 5, 90, 95, 180, 185, 270, 275):
        assert min(abs(turn - degrees) for turn in turns) < 360 / (right - left)
    assert all(any(abs(turn - d) < 8 for d in (0, 90, 180, 270)) for turn in turns)


def test_arcs_below() -> None:
    job = job_at(P22)
    shown = words(unrolled(job, job.joints[0], SIZE))
    # NPS 24 is 610 mm outside in ASME B36.10M; arc = pi x diameter x angle / 360.
    for degrees in (0, 90, 180, 270, 360):
        arc = math.pi * 610 * degrees / 360
        # As a tape is read: to the millimetre, and to a sixteenth of an inch.
        sixteenths = round(arc / 25.4 * 16)
        whole, rest = divmod(Fraction(sixteenths, 16), 1)
        inches = " ".join(str(part) for part in (whole, rest) if part) or "0"
        assert f"{arc:.0f} ({inches})" in shown


def test_along_by_hand() -> None:
    """Half of 100 mm: 55 % shared out 0.6 : 1 : 1 : 1, 45 % by length."""
    along = Along([21, 62.5, 465, 675], [], [], 0, 100)
    assert along.y(0) == 50
    assert along.y(21) == pytest.approx(50 - 50 * (0.55 * 0.6 / 3.6 + 0.45 * 21 / 675))
    assert along.y(-465) == pytest.approx(50 + 50 * (0.55 * 2.6 / 3.6 + 0.45 * 465 / 675))
    assert along.y(675) == pytest.approx(0)
    # Half way between two edges is half way on paper.
    assert along.y(570) == pytest.approx((along.y(465) + along.y(675)) / 2)


@given(
    edges=st.lists(st.floats(1, 3000), min_size=1, max_size=6),
    far=st.lists(st.floats(3001, 9000), max_size=4),
)
def test_farther_is_drawn_farther(edges: list[float], far: list[float]) -> None:
    along = Along(edges, far, far, 10, 110)
    places = [0.0, *sorted({*edges, *far})]
    up, down = [along.y(place) for place in places], [along.y(-place) for place in places]
    assert up == sorted(up, reverse=True) and down == sorted(down)
    assert len(set(up)) == len(places) or min(b - a for a, b in pairwise(places)) < 1e-6
    assert min(up) >= 10 - 1e-9 and max(down) <= 110 + 1e-9


def test_bands_lie_where_their_thermocouples_are() -> None:
    job = job_at(P22)
    svg = unrolled(job, job.joints[0], SIZE)
    heights = {round(y, 2) for _, y in spots(svg)}
    levels = [line for line in paths(svg, stroke_width="0.5") if len(line) == 4]
    edges = {round(line[1], 2) for line in levels if line[1] == line[3]}
    # T9 and T10 sit 465 mm from the weld, half of the heated band of 930 mm.
    assert len(edges) == 2 and edges <= heights


@each_row("path", whose_turn(SPECS), ids=lambda path: path.stem)
def test_angles_of_the_section(path: Path) -> None:
    job = job_at(path)
    sheet = job.joints[0]
    svg = section(job, sheet, SIZE)
    rim = max(
        float(c.attrib["r"]) for c in elements(svg, "circle") if c.get("stroke-width") == "0.5"
    )
    (centre,) = {
        (float(c.attrib["cx"]), float(c.attrib["cy"]))
        for c in elements(svg, "circle")
        if float(c.attrib["r"]) == rim
    }
    expected = [float(tag.degrees) for tag in sheet.tags if tag.degrees is not None]
    for x, y in spots(svg):
        angle = math.degrees(math.atan2(x - centre[0], centre[1] - y))
        # Crosses that would touch are drawn apart, a millimetre at most.
        slack = math.degrees(1.05 / rim)
        assert min(abs((angle - e + 180) % 360 - 180) for e in expected) < slack
        assert math.hypot(x - centre[0], y - centre[1]) == pytest.approx(rim, abs=0.6)
    for e in expected:
        assert any(
            abs((math.degrees(math.atan2(x - centre[0], centre[1] - y)) - e + 180) % 360 - 180)
            < math.degrees(1.05 / rim)
            for x, y in spots(svg)
        )


def test_chart_by_hand() -> None:
    job = job_at(P22)
    sheet = job.joints[0]
    svg = cycle_chart(job, sheet, sheet.runs[-1], SIZE)
    # Of the two axes of temperature the one on the left counts in degC.
    ticks = dict(sorted(inks(svg), key=lambda one: -one[1][0]))

    def x(hours: float) -> float:
        a, b = middle(svg, "1:00")[0], middle(svg, "5:00")[0]
        return a + (b - a) * (hours - 1) / 4

    def y(celsius: float) -> float:
        a, b = (ticks[t][1] + ticks[t][3] for t in ("200", "600"))
        return (a + (b - a) * (celsius - 200) / 400) / 2

    lines = paths(svg, stroke_width="0.7", stroke_dasharray="")
    # From 300 to 705 degC at 120 degC/h less 10 %: 405 / 108 = 3.75 h.
    heating = [x(0), y(300), x(3.75), y(705)]
    assert any(line == pytest.approx(heating, abs=0.25) for line in lines)
    # The fastest allowed takes 405 / 120 = 3.375 h.
    corners = paths(svg, fill="#fcefd2")
    assert any(c[2:4] == pytest.approx([x(3.375), y(705)], abs=0.25) for c in corners)


def test_a_time_lies_where_it_is_reached() -> None:
    """The clock stands while nothing is programmed: ticks stand at its beginning, and the first
    where it starts."""
    job = job_at(P22)
    steps = job.joints[0].runs[-1].program.steps
    track = Track(steps, 0.0, 200.0)
    first = next(s for s in track.stretches if s.seconds is not None)
    last = [s for s in track.stretches if s.seconds is not None][-1]
    assert track.stretches[0].seconds is None and track.stretches[-1].seconds is None
    assert track.x(0.0) == first.left
    assert track.x(track.total) == pytest.approx(last.right)


@each_row("size", [(132.4, 116.0), (150.0, 112.0), SIZE], ids=str)
@each_row("path", whose_turn(SPECS), ids=lambda path: path.stem)
def test_words_of_an_alarm_stand_on_its_own_side(path: Path, size: tuple[float, float]) -> None:
    """Beside the line of the other alarm, `alarm below` would be read as its name."""
    job = job_at(path)
    for sheet in job.joints:
        for run in sheet.runs:
            svg = cycle_chart(job, sheet, run, size)
            levels = {
                round(line[1], 2)
                for line in paths(svg, stroke="#d55e00")
                # The legend has a short one, too.
                if len(line) == 4 and line[1] == line[3] and abs(line[2] - line[0] - 8) > 0.01
            }
            named = [(text, ink) for text, ink in inks(svg) if text.startswith("alarm ")]
            for text, (_, top, _, bottom) in named:
                if "below" in text:
                    assert top > max(levels), text
                else:
                    assert bottom < min(levels), text
