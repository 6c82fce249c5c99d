"""Drawings read back without anything of the program: elements, and the ink of every text."""

import re
import xml.etree.ElementTree as ET
from functools import cache
from itertools import combinations
from pathlib import Path

from PIL import ImageFont

import hts.paper.sheet
from hts.job.compiler import Job, compile_spec
from tests.texts import spec_of

NAMESPACE = "{http://www.w3.org/2000/svg}"
_FONTS = Path(hts.paper.sheet.FOLDER)
_MEASURED = 256

Ink = tuple[float, float, float, float]


def job_of(text: str) -> Job:
    spec = spec_of(text, "x.hts")
    errors = [f for f in spec.findings if f.severity == "error"]
    # Drawings are safe even where a hidden character is not refused before.
    assert [f.message for f in errors if f.kind.name != "hidden-character"] == []
    return compile_spec(spec)


def elements(svg: str, tag: str) -> list[ET.Element]:
    return list(ET.fromstring(svg.encode("utf-8")).iter(NAMESPACE + tag))


def paths(svg: str, **style: str) -> list[list[float]]:
    """Coordinates of the paths that have this style: `stroke_width="0.5"`; "" for none."""
    wanted = {name.replace("_", "-"): value for name, value in style.items()}
    return [
        [float(number) for number in re.findall(r"-?[\d.]+", path.attrib["d"])]
        for path in elements(svg, "path")
        if all(path.get(name, "") == value for name, value in wanted.items())
    ]


def crosses(svg: str) -> list[tuple[float, float]]:
    """Where the crosses are that mark thermocouples: two strokes 0.4 mm wide each."""
    strokes = paths(svg, stroke_width="0.4")
    middles = {
        (round((s[0] + s[2]) / 2, 3), round((s[1] + s[3]) / 2, 3)) for s in strokes if len(s) == 4
    }
    return sorted(middles)


def words(svg: str) -> list[str]:
    return [element.text or "" for element in elements(svg, "text")]


def inks(svg: str) -> list[tuple[str, Ink]]:
    """Each text with the rectangle its letters fill, as FreeType sets it in the shipped fonts."""
    return [(element.text or "", _ink(element)) for element in elements(svg, "text")]


def picture(svg: str) -> tuple[float, float]:
    root = ET.fromstring(svg.encode("utf-8"))
    left, top, width, height = (float(part) for part in root.attrib["viewBox"].split())
    assert (left, top) == (0, 0)
    return width, height


def overlaps(svg: str) -> list[tuple[str, str]]:
    """Pairs of texts whose letters meet."""
    return [
        (one, other)
        for (one, a), (other, b) in combinations(inks(svg), 2)
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]


def outside(svg: str) -> list[str]:
    """Texts that leave the picture."""
    width, height = picture(svg)
    return [
        text
        for text, (left, top, right, bottom) in inks(svg)
        if left < 0 or top < 0 or right > width or bottom > height
    ]


def _ink(element: ET.Element) -> Ink:
    size, x, y = (float(element.attrib[name]) for name in ("font-size", "x", "y"))
    anchor = {"start": "ls", "middle": "ms", "end": "rs"}[element.get("text-anchor", "start")]
    font = _font(element.get("font-weight") == "bold")
    scale = size / _MEASURED
    box = font.getbbox(element.text or "", anchor=anchor)
    left, top, right, bottom = (part * scale for part in box)
    turn = element.get("transform")
    if turn is None:
        return x + left, y + top, x + right, y + bottom
    found = re.fullmatch(r"rotate\(-90 (\S+) (\S+)\)", turn)
    assert found is not None and (float(found[1]), float(found[2])) == (x, y)
    return x + top, y - right, x + bottom, y - left


@cache
def _font(bold: bool) -> ImageFont.FreeTypeFont:
    name = "NotoSans-Bold.ttf" if bold else "NotoSans-Regular.ttf"
    return ImageFont.truetype(_FONTS / name, _MEASURED)
