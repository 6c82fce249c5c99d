"""What is written in the drawings of texts that say nearly everything, word for word; the strokes
as a digest. Where it changes, look at the drawings."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from pathlib import Path

from hts.checking.rules.examples import BUTT
from hts.job.compiler import Job, compile_spec
from hts.paper.drawings import files
from hts.paper.sheet import A4, LETTER, Size
from tests import told
from tests.jobs import job_at
from tests.paper.packet.jobs import ROOT
from tests.rich import texts
from tests.texts import spec_of

KEPT = Path(__file__).with_name("told")
_NUMBER = re.compile(r"-?\d+\.\d+")
_SET = "{http://www.w3.org/2000/svg}"


def strokes(svg: ET.Element) -> Iterator[str]:
    """Every element with its numbers to a tenth of a millimetre."""
    for element in svg.iter():
        said = " ".join(f"{key}={value}" for key, value in element.attrib.items())
        yield element.tag + _NUMBER.sub(lambda found: f"{float(found[0]):.1f}", said)


def written(svg: ET.Element) -> Iterator[str]:
    for text in svg.iter(f"{_SET}text"):
        words = " ".join("".join(text.itertext()).split())
        yield words


#: What no text of those has: junctions that are pressed on, and so many that numbers stand for
#: their names, with a key beside the drawing.
_ROWS = "\n".join(
    f"    M{hour:02}{side[0]} monitors soak edge at {hour}:00, 40 mm {side} channel {{}}"
    for hour in range(1, 12)
    for side in ("upstream", "downstream")
    if hour != 6
)
_PRESSED = (
    "attached            capacitor discharge legs apart 6 mm energy 100 J each leg apart",
    "attached            mechanical",
)


def _crowded() -> Job:
    text = BUTT.replace(*_PRESSED)
    last = "    T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
    assert text != BUTT and text.count(last) == 1
    rows = _ROWS.format(*range(9, 29))
    text = text.replace(last, f"{last}{rows}\n").replace("channels    12", "channels    30")
    return compile_spec(spec_of(text, "crowded.hts"))


def _drawn(job: Job, size: Size = A4) -> str:
    lines = []
    for file, data in files(job, size).items():
        svg = ET.fromstring(data)
        words = dict.fromkeys(written(svg))
        lines += [f"# {file}", *words, f"  drawn {told.digest(strokes(svg))}"]
    return "\n".join(lines)


def test_the_drawings() -> None:
    drawn = {
        name: _drawn(texts.job(name), LETTER if name == "pipe-b" else A4) for name in texts.NAMES
    }
    # A socket weld, and a branch that leans.
    drawn["leaning-drain"] = _drawn(job_at(ROOT / "specs" / "leaning-drain.hts"))
    drawn["crowded"] = _drawn(_crowded())
    told.each_once(KEPT / "drawings.txt", drawn)
