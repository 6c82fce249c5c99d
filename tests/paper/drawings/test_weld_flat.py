"""Long seams and pads laid flat: every thermocouple lies where who faces the weld would put it."""

import math
import re
from itertools import pairwise
from pathlib import Path

import pytest

from hts.job.compiler import Job
from hts.job.demands.watched import apart, watched
from hts.job.outputs import tag_sheet
from hts.job.outputs.show import Shown
from hts.language.model.seam import Flat, Pad, Seam
from hts.paper.drawings import section, section_along, unrolled
from tests.paper.drawings.reading import crosses, inks, words
from tests.paper.packet.jobs import of_text

SIZE = (267.0, 150.0)
_TAG = re.compile(r"    T\d")
SPECS = Path(__file__).parents[3] / "tests" / "specs" / "right"
TEXT = (SPECS / "seam-and-pad.hts").read_text(encoding="utf-8")


def job(*changes: tuple[str, str]) -> Job:
    text = TEXT
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return of_text(text, str(SPECS))


def alone(joint: int, tag: str, *changes: tuple[str, str]) -> str:
    """The drawing with this thermocouple alone."""
    text = job(*changes).spec.source.text
    kept = [line for line in text.split("\n") if not _TAG.match(line) or f" {tag} " in line[:9]]
    made = of_text("\n".join(kept), str(SPECS))
    return unrolled(made, made.joints[joint], SIZE)


def mark(svg: str) -> tuple[float, float]:
    """The only cross but that of the legend, which stands below."""
    found = [(x, y) for x, y in crosses(svg) if y < 0.8 * SIZE[1]]
    assert len(found) == 1
    return found[0]


def middle(svg: str, said: str) -> tuple[float, float]:
    ink = next(ink for shown, ink in inks(svg) if shown.startswith(said))
    return (ink[0] + ink[2]) / 2, (ink[1] + ink[3]) / 2


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize(("tag", "along", "side"), [("T4", 400, "A"), ("T5", 2000, "B")])
def test_a_seam_as_it_is_faced(hand: str, tag: str, along: float, side: str) -> None:
    """Out of the wall toward the reader, to the right x up is outward: with side A up, the end on
    the left hand is the left end of the page, or the drawing were a mirror image."""
    made = job(("on the left", f"on the {hand}"))
    svg = alone(0, tag, ("on the left", f"on the {hand}"))
    x, y = mark(svg)
    start, end = middle(svg, "0 (0)")[0], middle(svg, "2400 (")[0]
    assert (start < end) == (hand == "left")
    # The numbers at the ends are drawn where there is room: the zone borders stand true.
    one, other = middle(svg, "800 (")[0], middle(svg, "1600 (")[0]
    assert x == pytest.approx(one + (other - one) * (along - 800) / 800, abs=0.3)
    upper, lower = middle(svg, "side A")[1], middle(svg, "side B")[1]
    assert upper < lower
    assert (y < (upper + lower) / 2) == (side == "A")
    facts = " ".join(tag_sheet.how_to_find(Shown(made.units), made.joints[0]))
    assert f"with side A above: north head seam is on your {hand}" in facts


def test_the_section_across_is_seen_from_where_it_says() -> None:
    """Along the seam from the left end, with the outside up, side A of the facing view is left."""
    for hand, left in (("left", "side A"), ("right", "side B")):
        made = job(("on the left", f"on the {hand}"))
        svg = section(made, made.joints[0], (140.0, 130.0))
        other = {"side A": "side B", "side B": "side A"}[left]
        assert middle(svg, left)[0] < middle(svg, other)[0]
        assert any("Seen along the weld from north head seam" in said for said in words(svg))


def test_a_pad_as_it_is_faced() -> None:
    """From the upper left corner clockwise: first to the right along the upper edge."""
    changes = ((" corners 50 mm", ""), ("1914 mm", "2000 mm"))
    places = {}
    for tag in ("T1", "T2", "T4", "T5", "T6"):
        svg = alone(1, tag, *changes)
        scale = float(next(s for s in words(svg) if s.startswith("pad, 1:"))[7:])
        x, y = mark(svg)
        places[tag] = (x * scale, -y * scale)
    meant = {
        "T2": (0, -200),
        "T4": (300 + 38, 200 - 190),
        "T5": (-300 + 38, -200 + 100),
        "T6": (0, 200 + 335),
    }
    # T1 sits 300 mm along the upper edge, over the middle of the pad.
    for tag, (across, up) in meant.items():
        beside = (places[tag][0] - places["T1"][0], places[tag][1] - places["T1"][1])
        assert beside == pytest.approx((across, up - 200), abs=1.0), tag


def walked(pad: Pad, off: float = 0.0) -> float:
    points = [pad.at(pad.length * n / 4000, off) for n in range(4001)]
    return sum(math.dist(a, b) for a, b in pairwise(points))


@pytest.mark.parametrize("corner", [0.0, 50.0, 200.0])
def test_round_a_pad(corner: float) -> None:
    """Its length is what a tape that is laid round it reads, and 30 mm farther out a tape reads
    30 mm times the full turn more."""
    pad = Pad(600.0, 400.0, corner)
    assert walked(pad) == pytest.approx(pad.length, rel=1e-3)
    if corner:
        assert walked(pad, 30.0) == pytest.approx(pad.length + 2 * math.pi * 30.0, rel=1e-3)
    points = [pad.at(pad.length * n / 400) for n in range(400)]
    # Clockwise as it is faced: the area by the shoelace rule is negative with y up.
    area = sum(a.x * b.y - b.x * a.y for a, b in pairwise([*points, points[0]])) / 2
    rounded = (4 - math.pi) * corner**2
    assert area == pytest.approx(-(600 * 400 - rounded), rel=2e-3)
    # The start is the upper left corner.
    assert pad.at(0.0).x < 0 < pad.at(0.0).y


def test_a_seam_is_straight() -> None:
    assert Seam(2400.0, "an end", "left").at(400.0, 48.0) == Flat(400.0, 48.0)
    assert Seam(2400.0, "an end", "right").at(400.0, 48.0) == Flat(2000.0, 48.0)


def test_how_far_apart_along_the_weld() -> None:
    made = job()
    sheet = made.joints[0]
    run = sheet.runs[-1]
    ones = {one.tag: one for one in watched(sheet, run, run.program.kind)}
    assert apart(ones["T1"], ones["T2"]) == pytest.approx(800.0)
    assert apart(ones["T4"], ones["T5"]) == pytest.approx(math.hypot(1600.0, 96.0))
    assert ones["T8"].zone == "z1" and ones["T9"].zone == "z3"


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('  seam       2.4 m from "north head seam" on the left\n', "", "how long the seam is"),
        (" on the left\n", "\n", "on which hand"),
        ("  pad        600 mm by 400 mm corners 50 mm\n", "", "size of the pad"),
    ],
)
def test_what_cannot_be_drawn_says_why(old: str, new: str, says: str) -> None:
    made = job((old, new))
    joint = made.joints[1 if "pad" in old else 0]
    for draw in (unrolled, section, section_along):
        said = " ".join(words(draw(made, joint, SIZE)))
        assert "Not drawn" in said and says in said
