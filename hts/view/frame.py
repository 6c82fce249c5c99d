"""What every page has: its head, the way to the others, and who approves."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from typing import NamedTuple

from hts import __version__
from hts.job.outputs.cautions import APPROVAL
from hts.job.outputs.text import visible
from hts.view.markup import Html, Part, css_string, html, tag

#: Milliseconds between two questions of a page that is looked at whether something changed.
EVERY = 200


class Section(NamedTuple):
    """A part of a page that is exchanged by itself when it changes."""

    id: str
    title: str
    body: Html
    class_: str | None = None

    def html(self) -> Html:
        digest = hashlib.sha256(f"{self.title}\0{self.body}".encode()).hexdigest()[:16]
        return tag(
            "section",
            tag("h2", self.title, id=f"{self.id}-head"),
            self.body,
            id=self.id,
            class_=self.class_,
            aria_labelledby=f"{self.id}-head",
            data_digest=digest,
        )


class Live(NamedTuple):
    """How a page is kept fresh: the address that tells its state, the state it was made from, and
    the word that lets its own script and style run and no other."""

    ask: str
    state: str
    nonce: str
    base: str
    every: int = EVERY


def page(
    title: str,
    head: Part,
    sections: Iterable[Section],
    live: Live | None,
    *,
    style: str = "",
    two: bool = False,
    body_class: str | None = None,
    bar: Part = None,
    foot: Part = None,
    printed: str = "",
) -> Html:
    """A whole page. Without `live` it is a file of its own, with its style inside and no
    script. `bar` stands above the head and is never exchanged. `printed` stands at the foot of
    every printed sheet; the title by default."""
    attributes: dict[str, str | None] = {"lang": "en"}
    links: list[Html] = []
    if live is None:
        links = [tag("style", Html(style))]
    else:
        attributes |= {
            "data_ask": live.ask,
            "data_state": live.state,
            "data_every": str(live.every),
        }
        links = [
            # Without it a browser asks for a picture the server has not.
            tag("link", rel="icon", href="data:,"),
            tag("link", rel="stylesheet", href=f"{live.base}page.css", nonce=live.nonce),
            tag("script", src=f"{live.base}page.js", nonce=live.nonce, defer=True),
        ]
    shown = [section.html() for section in sections]
    inside = [
        tag("header", head, id="head", data_digest=hashlib.sha256(html(head).encode()).hexdigest()),
        tag("main", *shown, class_="two" if two else None),
        tag(
            "footer",
            tag("p", tag("strong", APPROVAL[0])),
            tag("p", foot, f" hts {__version__}."),
        ),
    ]
    if live is not None:
        close = tag("form", tag("button", "Close"), method="dialog")
        dialog = tag("dialog", tag("div"), close, id="reason", aria_label="Reason")
        banner = tag("div", id="gone", class_="gone", role="alert", hidden=True)
        inside = [banner, html(bar), *inside, dialog]
    return html(
        Html("<!doctype html>\n"),
        tag(
            "html",
            tag(
                "head",
                tag("meta", charset="utf-8"),
                tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
                tag("meta", name="referrer", content="no-referrer"),
                tag("title", title),
                *links,
                tag(
                    "style",
                    _print_foot(printed or title),
                    id="foot",
                    nonce=live.nonce if live is not None else None,
                ),
            ),
            tag("body", *inside, class_=body_class),
            **attributes,
        ),
        Html("\n"),
    )


def _print_foot(printed: str) -> Html:
    """Each printed sheet says of what it is, and how many there are."""
    return Html(
        f"@page{{@bottom-left{{content:{css_string(visible(printed))};font-size:7.5pt}}"
        '@bottom-right{content:counter(page) " of " counter(pages);font-size:7.5pt}}'
    )
