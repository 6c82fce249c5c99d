"""Markup in which every text is escaped, here and nowhere else."""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape

from hts.job.outputs.text import visible

_VOID = frozenset(("br", "link", "meta", "input"))
_UNSAFE = re.compile(r"[^a-z0-9]+")


class Html(str):
    """Text that is markup already; every other text is escaped before it goes into a page."""

    __slots__ = ()


#: What can stand in a page: markup, a text, or nothing.
Part = str | None


def html(*parts: Part) -> Html:
    """The parts one after another; what is no markup is escaped, and what cannot be seen is shown
    by its number."""
    return Html("".join(_escaped(part) for part in parts if part is not None))


def tag(name: str, /, *parts: Part, **attributes: str | bool | None) -> Html:
    """An element. `class_` is class, `data_page` data-page; None and False leave one out, True is
    one without a value."""
    said = ""
    for key, value in attributes.items():
        if value is None or value is False:
            continue
        key = key.rstrip("_").replace("_", "-")
        said += f" {key}" if value is True else f' {key}="{escape(visible(str(value)))}"'
    if name in _VOID:
        return Html(f"<{name}{said}>")
    return Html(f"<{name}{said}>{html(*parts)}</{name}>")


def each(parts: Iterable[Part], between: str = "") -> Html:
    """Parts with something between them."""
    return Html(html(between).join(html(part) for part in parts))


def css_string(text: str) -> str:
    """A text as a string of a style sheet; all but plain letters and digits by their numbers, so
    that nothing ends the string, the rule or the element."""
    kept = (c if c.isascii() and (c.isalnum() or c in " -.,") else f"\\{ord(c):x} " for c in text)
    return '"' + "".join(kept) + '"'


def slug(text: str) -> str:
    """A text as part of an id: lower-case letters, digits and hyphens."""
    return _UNSAFE.sub("-", text.lower()).strip("-")


def items(texts: Iterable[Part], **attributes: str | bool | None) -> Html:
    """A list; nothing where there is nothing to list."""
    found = [tag("li", text) for text in texts]
    return tag("ul", *found, **attributes) if found else Html("")


def table(
    caption: str, heads: Iterable[Part], rows: Iterable[Iterable[Part]], class_: str | None = None
) -> Html:
    """A table that scrolls by itself where it is wider than the page; the first cell of a row
    names it. With the class `list` its rows become blocks on a phone, each cell with its head."""
    heads = list(heads)
    labels = heads if class_ == "list" else [None] * len(heads)
    body = [
        tag("tr", *(tag("td" if at else "th", cell, scope=None if at else "row",
                        data_label=label if cell else None)
                    for at, (cell, label) in enumerate(zip(row, labels, strict=True))))
        for row in rows
    ]  # fmt: skip
    made = tag(
        "table",
        tag("caption", caption),
        tag("thead", tag("tr", *(tag("th", head, scope="col") for head in heads))),
        tag("tbody", *body),
    )
    name = f"wide {class_}" if class_ else "wide"
    return tag("div", made, class_=name, role="group", aria_label=caption, tabindex="0")


def _escaped(part: str) -> str:
    return part if isinstance(part, Html) else escape(visible(part), quote=True)
