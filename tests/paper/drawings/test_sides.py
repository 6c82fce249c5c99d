"""Drawings wrapped round a pipe: every thermocouple comes to lie where the text puts it.

The check stands on vectors alone: how a clock runs that is seen along a gaze, and how a sheet lies
that is wrapped round a cylinder with its print outside.
"""

import math
import re
from itertools import product

import pytest

from hts.job.compiler import Job, compile_spec
from hts.paper.drawings import section, section_along, unrolled
from hts.paper.drawings.sides import Sides
from tests.paper.drawings.reading import crosses, elements, inks, job_of, paths, words
from tests.paper.drawings.test_room import JOB
from tests.rows import each_row
from tests.sampling import thinned, whose_turn
from tests.texts import spec_of

Vector = tuple[float, float, float]
SIZE = (267.0, 180.0)
EAST, WEST, NORTH, SOUTH = (1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0)
UP, DOWN = (0, 0, 1), (0, 0, -1)


def text(places: list[tuple[str, str]], viewed: str, flow: str, axis: str, datum: str) -> str:
    tags = "\n".join(
        f"    T{number} monitors soak edge at {clock}, {place}"
        for number, (clock, place) in enumerate(places, 1)
    )
    made = JOB.format(show="SI", supports=f"  flow {flow}" if flow else "", thermocouples=tags)
    made = made.replace("axis horizontal", f"axis {axis}").replace("datum top", f"datum {datum}")
    return made.replace("viewed with flow", f"viewed {viewed}" if viewed else "")


def read(made: str) -> Job:
    """Compiled whatever the checks say."""
    return compile_spec(spec_of(made, "x.hts"))


def cross(a: Vector, b: Vector) -> Vector:
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def at(angle: float, start: Vector, quarter: Vector) -> Vector:
    """A direction `angle` degrees from `start` toward `quarter`."""
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return tuple(c * a + s * b for a, b in zip(start, quarter, strict=True))  # type: ignore[return-value]


def mark(svg: str) -> tuple[float, float]:
    """The only cross but that of the legend, which stands below."""
    found = [(x, y) for x, y in crosses(svg) if y < 0.82 * SIZE[1]]
    assert len(found) == 1
    return found[0]


#: The world: the ends of the pipe, by the flow the text states and the way the pipe lies.
FLOWS = {
    ("A to B, north", "horizontal"): {"downstream": NORTH, "side B": NORTH, "north": NORTH},
    ("B to A, south", "horizontal"): {"downstream": SOUTH, "side A": SOUTH, "north": NORTH},
    ("up, B to A", "vertical"): {"downstream": UP, "side A": UP, "above": UP},
    ("A to B, down", "vertical"): {"downstream": DOWN, "side B": DOWN, "above": UP},
}
OPPOSITE = {
    "downstream": "upstream",
    "side A": "side B",
    "side B": "side A",
    "above": "below",
    "north": "south",
}
GAZES = {
    "with flow": "downstream",
    "against flow": "upstream",
    "from side A": "side B",
    "from side B": "side A",
    "from above": "below",
    "from below": "above",
    "from north": "south",
}
CASES = [
    (flow, axis, viewed, clock)
    for (flow, axis), viewed, clock in product(FLOWS, GAZES, ["12:00", "1:30", "3:00", "10:00"])
    if (axis == "vertical" or viewed not in ("from above", "from below"))
    and (axis == "horizontal" or viewed != "from north")
]


@pytest.mark.parametrize(("flow", "axis", "viewed", "clock"), thinned(whose_turn(CASES), 3))
def test_wrapped_round_the_pipe(flow: str, axis: str, viewed: str, clock: str) -> None:
    ends = dict(FLOWS[flow, axis])
    ends |= {OPPOSITE[end]: tuple(-c for c in v) for end, v in ends.items() if end in OPPOSITE}  # type: ignore[misc]
    datum, top = ("top", UP) if axis == "horizontal" else ("north", NORTH)
    gaze = ends[GAZES[viewed]]
    degrees = (int(clock.split(":")[0]) % 12) * 30 + int(clock.split(":")[1]) / 2
    # Who looks along the gaze with 12:00 up has 3:00 on the right: gaze x up.
    meant = at(degrees, top, cross(gaze, top))
    for side in [end for end in ends if end not in ("north", "south")]:
        job = read(text([(clock, f"62 mm {side}")], viewed, flow, axis, datum))
        sheet = job.joints[0]
        svg = unrolled(job, sheet, SIZE)
        x, y = mark(svg)
        ticks = sorted((ink[0] + ink[2]) / 2 for shown, ink in inks(svg) if shown == "12:00")
        names = [
            (shown, ink) for shown, ink in inks(svg) if "downstream" in shown or "upstream" in shown
        ]
        names = [(shown, ink) for shown, ink in names if not shown.startswith("The text")]
        (upper, high), (lower, low) = sorted(names, key=lambda one: one[1][1])
        page_up = ends[re.split(r"[,/]", upper)[0].strip()]
        # Printed outside, to the right x up is the way out of the pipe: to the right is up x out.
        right = cross(page_up, top)
        wrapped = at(360 * (x - ticks[0]) / (ticks[1] - ticks[0]), top, right)
        assert wrapped == pytest.approx(meant, abs=2e-3)
        is_upper = y < (high[1] + low[3]) / 2
        assert side in (upper if is_upper else lower)
        assert (ends[side] == page_up) == is_upper
        if axis == "vertical":
            assert page_up == UP
        # The section is what the eye sees: its top is 12:00, its right gaze x up.
        svg = section(job, sheet, SIZE)
        x, y = mark(svg)
        (centre,) = {
            (float(c.attrib["cx"]), float(c.attrib["cy"]))
            for c in elements(svg, "circle")
            if c.get("stroke-width") == "0.5"
        }
        turn = math.degrees(math.atan2(x - centre[0], centre[1] - y))
        assert at(turn, top, cross(gaze, top)) == pytest.approx(meant, abs=2e-2)
        toward = "flow away from you" if gaze == ends["downstream"] else "flow toward you"
        assert toward in words(svg)


@pytest.mark.parametrize(
    ("viewed", "flow", "up"),
    [("with flow", "", True), ("against flow", "", False), ("from side A", "B to A", False)],
)
def test_one_arrow_shows_the_flow(viewed: str, flow: str, up: bool) -> None:
    job = job_of(text([("12:00", "62 mm upstream")], viewed, flow, "horizontal", "top"))
    svg = unrolled(job, job.joints[0], SIZE)
    (ink,) = [ink for shown, ink in inks(svg) if re.match("downstream.*, flow", shown)]
    (shaft,) = [
        line
        for line in paths(svg, stroke_width="0.5")
        if len(line) == 4 and line[0] == line[2] and abs(line[1] - line[3]) < 10
    ]
    # From tail to tip up the page where the downstream end is drawn up.
    assert (shaft[3] < shaft[1]) == up == (ink[1] < SIZE[1] / 2)


def test_branch_stands_on_its_run() -> None:
    made = text([("3:00", "62 mm on branch")], "from branch", "", "vertical", "flow arrow")
    made = made.replace("kind girth butt", "kind branch")
    sides = Sides(read(made).joints[0].joint)
    # Seen from the branch the gaze goes to the run, which is drawn down: the clock runs leftward.
    assert (sides.upper, sides.lower, sides.leftward) == (("on branch",), ("on run",), True)


@each_row(
    ("viewed", "flow", "axis", "why"),
    [
        ("from side A", "", "horizontal", "whether upstream is side A or side B"),
        ("from above", "", "vertical", "whether upstream is below or above"),
        ("from above", "", "horizontal", "of a pipe that lies horizontal"),
        ("from north", "south, north", "horizontal", "contradicts"),
    ],
)
def test_what_is_not_settled_is_not_drawn(viewed: str, flow: str, axis: str, why: str) -> None:
    places = [("3:00", "62 mm upstream"), ("2:00", "on weld")]
    job = read(text(places, viewed, flow, axis, "north" if axis == "vertical" else "top"))
    svg = unrolled(job, job.joints[0], SIZE)
    shown = " ".join(words(svg))
    assert why in shown and "Not drawn" in shown and "T1" in shown
    # The one on the weld is drawn where the view is certain.
    assert len(crosses(svg)) == 1 + ("whether" in why)


def test_without_a_view_only_twelve_and_six_are_certain() -> None:
    places = [("12:00", "62 mm upstream"), ("6:00", "on weld"), ("3:00", "on weld")]
    job = read(text(places, "", "", "horizontal", "top"))
    svg = unrolled(job, job.joints[0], SIZE)
    assert len(crosses(svg)) == 1 + 2
    assert "Not drawn" in " ".join(words(svg))


@each_row(("flow", "axis", "viewed"), sorted({c[:3] for c in CASES}))
def test_section_along_has_each_end_on_its_side(flow: str, axis: str, viewed: str) -> None:
    """What is near an end of the pipe is drawn on the side where that end is named; the flow runs
    to the right, but on a pipe that stands, where above is on the right."""
    datum = "top" if axis == "horizontal" else "north"
    places = [("12:00", "62 mm upstream"), ("12:00", "460 mm downstream")]
    job = read(text(places, viewed, flow, axis, datum))
    svg = section_along(job, job.joints[0], SIZE)
    found = [x for x, y in crosses(svg) if y < 0.8 * SIZE[1]]
    centre = sum(ink[0] + ink[2] for shown, ink in inks(svg) if re.match("(down|up)stream", shown))
    near, far = sorted(found, key=lambda x: abs(x - centre / 4))
    right = {
        shown.split(" ")[0]: ink[0] > SIZE[0] / 2 for shown, ink in inks(svg) if " / " in shown
    }
    assert right["downstream"] == (far > near) and right["upstream"] == (far < near)
    up = FLOWS[flow, axis]["downstream"] == UP
    assert right["downstream"] == (axis == "horizontal" or up)
