"""A drawing of ours inside a page: read again, only lines, shapes and letters kept, and its
thermocouples made to lead to their lines."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from xml.etree import ElementTree

from hts.view.markup import Html, html, tag

_SVG = "{http://www.w3.org/2000/svg}"
#: What our drawings are made of; anything else would not be ours.
_SHAPES = frozenset(("circle", "g", "line", "path", "polygon", "rect", "text", "tspan"))
_ATTRIBUTES = frozenset(
    (
        "cx", "cy", "d", "fill", "font-family", "font-size", "font-weight", "height", "points", "r",
        "stroke", "stroke-dasharray", "stroke-linejoin", "stroke-width", "text-anchor",
        "transform", "width", "x", "x1", "x2", "y", "y1", "y2",
    )
)  # fmt: skip
#: Attributes that hold places and lengths alone.
_FIGURES = frozenset(
    ("cx", "cy", "d", "height", "points", "r", "width", "x", "x1", "x2", "y", "y1", "y2")
)
_LONG = re.compile(r"-?\d+\.\d{3,}")
_BLANK = re.compile(r" ([A-Z])")


def picture(svg: str, title: str, links: Mapping[str, str], class_: str = "") -> Html:
    """The drawing as a figure. `title`: the drawing's own without one; `links`: what a letter of it
    says -> where that leads."""
    return _figure(svg, title, tuple(links.items()), class_)


# After a save most drawings are what they were.
@lru_cache(maxsize=48)
def _figure(svg: str, title: str, linked: tuple[tuple[str, str], ...], class_: str) -> Html:
    links = dict(linked)
    root = ElementTree.fromstring(svg)
    inner = [_shape(child, links) for child in root]
    title = title or root.findtext("{http://www.w3.org/2000/svg}title", "")
    drawn = tag(
        "svg",
        *inner,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=root.get("viewBox"),
        font_family=root.get("font-family"),
    )
    box = tag("div", drawn, class_="wide paper", role="group", aria_label=title, tabindex="0")
    return tag("figure", box, tag("figcaption", title), class_=class_ or None)


def _short(key: str, value: str) -> str:
    """A hundredth of a millimetre is less than a screen shows; a copy is sent to phones."""
    if key not in _FIGURES:
        return value
    return _BLANK.sub(r"\1", _LONG.sub(lambda found: f"{float(found[0]):.2f}", value))


def _shape(element: ElementTree.Element, links: Mapping[str, str]) -> Html:
    name = element.tag.removeprefix(_SVG)
    if name not in _SHAPES:
        return Html("")
    kept = {
        key.replace("-", "_"): _short(key, value)
        for key, value in element.attrib.items()
        if key in _ATTRIBUTES and "url(" not in value
    }
    text = (element.text or "").strip("\n")
    drawn = tag(name, text or None, *(_shape(child, links) for child in element), **kept)
    where = links.get(text) if name == "text" else None
    return tag("a", html(drawn), href=where) if where else drawn
