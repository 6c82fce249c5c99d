"""The branch on its run: crosses lie where elementary geometry of two cylinders puts them."""

import re
from itertools import product
from math import asin, pi, sqrt

import pytest

from hts.base.text import Source
from hts.checking.rules.examples import changed
from hts.job.compiler import Job, compile_spec
from hts.language.model import Loader, Spec
from hts.paper.drawings import unrolled
from tests.paper.drawings.reading import crosses, inks, outside, overlaps, words
from tests.paper.packet.jobs import ROOT, of_text
from tests.sampling import thinned

SIZE = (267.0, 180.0)
#: NPS 10 on NPS 12: outside diameters of ASME B36.10M.
BRANCH, RUN = 273.0 / 2, 323.8 / 2
T6 = "at 6:00,  287 mm on run     channel 6"


def draw(*changes: tuple[str, str]) -> str:
    job = made(*changes)
    return unrolled(job, job.joints[0], SIZE)


def made(*changes: tuple[str, str]) -> Job:
    return compile_spec(Spec(Source(changed("branch", changes), "x.hts"), Loader("/")))


def head(svg: str, begins: str) -> tuple[float, int]:
    """Middle across of a view, and its scale."""
    ((text, ink),) = [one for one in inks(svg) if one[0].startswith(begins)]
    return (ink[0] + ink[2]) / 2, int(re.findall(r"1:(\d+)", text)[0])


def test_places_on_the_run() -> None:
    more = "\n    ".join(
        [
            T6,
            "T7 monitors base metal at 12:00, 200 mm on run channel 9",
            "T8 monitors base metal at 3:00, 50 mm on run channel 10",
            "T9 monitors base metal at 9:00, 60 mm on run channel 11",
        ]
    )
    svg = draw((T6, more))
    middle, scale = head(svg, "Run, laid flat")
    found = [(x, y) for x, y in crosses(svg) if x > SIZE[0] / 2 and y < 0.8 * SIZE[1]]
    # Seen along the branch with 12:00 up, which lies along the run here: straight lines upward.
    up = [(BRANCH + 200) / scale, -(BRANCH + 40) / scale, -(BRANCH + 287) / scale]
    across = RUN * asin(BRANCH / RUN)
    ys = sorted(y for x, y in found if abs(x - middle) < 0.1)
    right = max(x for x, _ in found) - middle
    left = middle - min(x for x, _ in found)
    assert right == pytest.approx((across + 50) / scale, abs=0.05)
    assert left == pytest.approx((across + 60) / scale, abs=0.05)
    (level,) = {round(y, 2) for x, y in found if abs(x - middle) > 1}
    assert [level - y for y in ys] == pytest.approx(up, abs=0.05)


def test_places_on_the_branch() -> None:
    svg = draw()
    middle, scale = head(svg, "Branch, laid flat")
    around = 2 * pi * BRANCH / scale
    found = [(x, y) for x, y in crosses(svg) if x < SIZE[0] / 2 and y < 0.8 * SIZE[1]]
    # The branch is drawn up and the clock is seen along it: it runs from right to left.
    twelve, six = middle + around / 2, middle
    tops = sorted(y for x, y in found if abs(x - twelve) < 1.2)
    # T5 is 287 mm, T3 40 mm up from the weld at the crotch, where T1 sits.
    assert tops[-1] - tops[0] == pytest.approx(287 / scale, abs=0.05)
    assert tops[-1] - tops[1] == pytest.approx(40 / scale, abs=0.05)
    assert any(abs(x - six) < 1.2 for x, _ in found)


def test_the_weld_falls_to_the_flanks() -> None:
    svg = draw(
        ("at 12:10 on weld", "at 12:00 on weld"),
        ("T2   controls bottom         at 6:00", "T2   controls bottom         at 3:00"),
    )
    middle, scale = head(svg, "Branch, laid flat")
    quarter = pi * BRANCH / 2 / scale
    found = [(x, y) for x, y in crosses(svg) if x < SIZE[0] / 2 and y < 0.8 * SIZE[1]]
    crotch = max(y for x, y in found if abs(x - middle - 2 * quarter) < 0.3)
    flank = max(y for x, y in found if abs(x - middle - quarter) < 0.3)
    # R - sqrt(R^2 - r^2): the depth of the saddle.
    assert flank - crotch == pytest.approx((RUN - sqrt(RUN**2 - BRANCH**2)) / scale, abs=0.05)


BRANCHES = ("", "angle 45 deg ", "angle 60 deg offset 20 mm toward 3:00 ")
SIZES = ((271.0, 147.0), (271.0, 112.0), (267.0, 180.0), (173.0, 225.0))


@pytest.mark.parametrize(("branch", "size"), thinned(product(BRANCHES, SIZES), 5))
def test_nothing_covers_anything(branch: str, size: tuple[float, float]) -> None:
    job = made(("10 mm crotch", f"10 mm {branch}crotch"))
    svg = unrolled(job, job.joints[0], size)
    assert overlaps(svg) == [] and outside(svg) == []
    told = " ".join(words(svg))
    assert "crotch" in told and ("heel" in told) == ("angle" in branch)
    assert all(tag.tag in told for tag in job.joints[0].tags)


@pytest.mark.parametrize(
    ("change", "why"),
    [
        (("10 mm crotch at 12:00", "10 mm"), "not told which clock position lies at the crotch"),
        (("viewed     from branch", "viewed     with flow"), "from where the clock is seen"),
        (("side run of pipe NPS 12", "side run of pipe NPS 8"), "reaches past the side of its run"),
    ],
)
def test_what_cannot_be_drawn_says_why(change: tuple[str, str], why: str) -> None:
    told = " ".join(words(draw(change)))
    assert "Not drawn" in told and why in told


def test_a_long_seam_is_not_drawn() -> None:
    svg = draw(
        ("kind       branch", "kind       long seam"),
        ("heated band    by rule", "heated band    580 mm total"),
        ("gradient band  by rule", "gradient band  800 mm total"),
        ("soak band      by rule", "soak band      100 mm total"),
    )
    assert "does not tell how long the seam is" in " ".join(words(svg))


def zones_of(*changes: tuple[str, str]) -> dict[str, list[tuple[float, float]]]:
    """Words of zones with the middles of their ink, of the vent on its header."""
    text = (ROOT / "specs" / "branch-unequal.hts").read_text("utf-8")
    for before, after in changes:
        assert before in text
        text = text.replace(before, after)
    job = of_text(text, str(ROOT / "specs"))
    svg = unrolled(job, job.joints[0], SIZE)
    found: dict[str, list[tuple[float, float]]] = {}
    for word, (left, top, right, bottom) in inks(svg):
        found.setdefault(word, []).append(((left + right) / 2, (top + bottom) / 2))
    return found


def test_zones_lie_at_their_clock_positions_on_branch_and_run() -> None:
    """On the branch under their hours; on the run, seen along the branch, as on a clock."""
    found = zones_of()
    for zone, hour in (("left", "9:00"), ("back", "6:00"), ("right", "3:00")):
        (branch, run) = sorted(found[zone])
        assert branch[0] == pytest.approx(found[hour][0][0], abs=0.6), zone
        assert run[0] > SIZE[0] / 2
    run = {zone: max(found[zone]) for zone in ("front", "right", "back", "left")}
    assert run["left"][0] < run["front"][0] < run["right"][0]
    assert run["front"][1] < run["right"][1] < run["back"][1]
    assert "heaters of a zone" in found


def test_a_zone_lies_where_its_side_and_its_heaters_say() -> None:
    front = "zone front         from 10:30 to 1:30  side "
    assert [x > SIZE[0] / 2 for x, _ in zones_of((f"{front}both", f"{front}run"))["front"]] == [
        True
    ]
    # A row that begins 100 mm from the weld and ends 300 mm from it, on the run alone.
    row = "kind flexible pad power 2.7 kW count 3 circuit 1"
    ends = f"{row.removesuffix(' circuit 1')} starts 100 mm on run ends 300 mm on run circuit 1"
    (front_of_run,) = zones_of((row, ends))["front"]
    assert front_of_run[0] > SIZE[0] / 2
