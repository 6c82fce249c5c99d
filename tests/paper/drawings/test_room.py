"""No text covers another and none leaves the picture, whatever the joint and the picture's shape.

The room each text takes is measured by FreeType in the shipped fonts, not by the program.
"""

import re
from itertools import product
from pathlib import Path

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from hts.paper.drawings import cycle_chart, section, section_along, unrolled
from tests.jobs import job_at
from tests.paper.drawings.reading import job_of, outside, overlaps, words
from tests.sampling import thinned, whose_turn

ROOT = Path(__file__).parents[3]
#: Without the weld list: its 120 welds are of four shapes, and each would be looked at.
SPECS = sorted(p for p in (ROOT / "specs").glob("*.hts") if p.stem != "turnaround-list")

#: Pictures on A4 and Letter, upright and lying; the sheets are ISO 216 and ANSI/ASME Y14.1.
SIZES = [(180.0, 120.0), (180.0, 240.0), (267.0, 180.0), (186.0, 118.0), (186.0, 225.0)]

CLOCKS = st.builds(
    lambda hour, minute: f"{hour}:{minute:02d}", st.integers(1, 12), st.integers(0, 59)
)
#: As good as one place, as spares are put beside what they stand in for.
CLOSE = st.sampled_from(["12:00", "12:05", "12:08", "12:10"])
QUADRANT = st.builds(
    lambda hour, minute: f"{hour}:{minute:02d}", st.sampled_from([12, 1, 2]), st.integers(0, 59)
)
PLACES = st.one_of(
    st.just("on weld"),
    st.builds(
        lambda far, side: f"{far} mm {side}",
        st.sampled_from([10, 40, 62, 62, 230, 465, 675, 900, 1400]),
        st.sampled_from(["upstream", "downstream"]),
    ),
)


@st.composite
def joints(draw: st.DrawFn) -> str:
    """A joint with up to 24 thermocouples, tags up to 12 characters, anywhere or all in a heap."""
    count = draw(st.integers(1, 24))
    clocks = draw(st.sampled_from([CLOCKS, CLOSE, QUADRANT]))
    length = draw(st.integers(3, 12))
    lines = []
    for number in range(1, count + 1):
        tag = f"TW{number}".ljust(length, "W")
        duty = draw(
            st.sampled_from(
                ["controls zone-northern", "monitors soak edge"]
                + ([f"spare for {'TW1'.ljust(length, 'W')}"] if number > 1 else [])
            )
        )
        where = draw(PLACES)
        inside = " surface inside" if draw(st.booleans()) and draw(st.booleans()) else ""
        lines.append(f"    {tag} {duty} at {draw(clocks)}, {where}{inside} channel {number}")
    supports = [
        f'  support "{draw(st.sampled_from(["rod", "spring hanger of great strength"]))}" '
        f"{draw(st.integers(100, 4000))} mm {draw(st.sampled_from(['upstream', 'downstream']))}"
        for _ in range(draw(st.integers(0, 5)))
    ]
    return JOB.format(
        show=draw(st.sampled_from(["SI", "US", "SI and US", "US and SI"])),
        supports="\n".join(supports),
        thermocouples="\n".join(lines),
    )


JOB = """\
spec 1
job "Tern Island (invented)" {{
  number "HT-1"
  revision A on 2026-10-02 status for review
  governed by asme-b31.3 edition 2018
  show {show}
  signed {{ prepared "Heat-treatment engineer" }}
}}
material pipe {{ grade "A335 P22" }}
joint W1 {{
  kind girth butt
  between pipe and pipe
  pipe NPS 24 schedule 100
  wall 39.6 mm measured
  cap width 42 mm
  axis horizontal
  datum top
  viewed with flow
{supports}
  heating by resistance {{
    soak band 125 mm total
    heated band 930 mm total
    gradient band 1350 mm total
    zone zone-northern from 10:30 to 1:30
    zone zone-southern from 1:30 to 10:30
    gap at most 25 mm
    insulation "blanket" thickness 50 mm
    ends closed and vented
    bore drained and dry
  }}
  thermocouples type K class 1 {{
    colours IEC 60584-3
{thermocouples}
  }}
}}
"""


def _shown(case: Path | tuple[float, float]) -> str:
    return case.stem if isinstance(case, Path) else f"{case[0]:g}x{case[1]:g}"


@pytest.mark.parametrize(
    ("path", "size"), thinned(whose_turn(product(SPECS, SIZES)), 4), ids=_shown
)
def test_good_specifications(path: Path, size: tuple[float, float]) -> None:
    job = job_at(path)
    for sheet in job.joints:
        tags = [tag.tag for tag in sheet.tags if tag.clock is not None]
        for draw in (unrolled, section, section_along):
            svg = draw(job, sheet, size)
            assert overlaps(svg) == []
            assert outside(svg) == []
            if draw is section_along:
                continue
            # One far off the branch is named in a note.
            told = re.findall(r"[^\s(,:]+", " ".join(words(svg)))
            assert [tag for tag in tags if tag not in told] == []
        for run in sheet.runs:
            svg = cycle_chart(job, sheet, run, size)
            assert overlaps(svg) == []
            assert outside(svg) == []


# Half as many as are usual: each is drawn three times.
@settings(
    phases=[Phase.explicit, Phase.reuse, Phase.generate],
    max_examples=settings().max_examples // 2,
)
@given(text=joints(), size=st.sampled_from(SIZES))
def test_any_joint(text: str, size: tuple[float, float]) -> None:
    job = job_of(text)
    sheet = job.joints[0]
    for draw in (unrolled, section, section_along):
        svg = draw(job, sheet, size)
        assert overlaps(svg) == []
        assert outside(svg) == []
        # Many or long tags are numbered, with a key: numbers then stand twice.
        told = [word.split(", ")[0] for word in words(svg)]
        if "Not all thermocouples have room here" in " ".join(words(svg)):
            assert draw is section_along
            continue
        for number, tag in enumerate(sheet.tags, 1):
            assert tag.tag in told
            assert told.count(tag.tag) == 1 or str(number) not in told
