"""The pages by their addresses. What is asked for is looked up in tables; no part of an address
becomes part of a path."""

from __future__ import annotations

import os
import threading
from collections import OrderedDict
from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple, Protocol
from urllib.parse import quote

from hts.base.text import Span
from hts.checking.checker.fault import fault
from hts.view.checked import Checked
from hts.view.findings import Leads
from hts.view.frame import Live, Section, page
from hts.view.guard import Refused, new_key
from hts.view.list_page import legend, list_sections
from hts.view.markup import Html, html, tag
from hts.view.predicted_page import can_be_asked, invitation
from hts.view.predicted_page import sections as predicted_sections
from hts.view.predictions import Predictions
from hts.view.shelf import Shelf
from hts.view.spec_page import FIRST, READINGS, printed_foot, spec_head, spec_sections, title_of

_HTML = "text/html; charset=utf-8"
_PLAIN = "text/plain; charset=utf-8"
_FILES = {"page.css": "text/css; charset=utf-8", "page.js": "text/javascript; charset=utf-8"}
#: Milliseconds between two questions of the list.
_LIST_EVERY = 1000
#: Pages that are kept as they were made.
_PAGES = 12


class Answer(NamedTuple):
    """`status` of HTTP, kind of content, and the bytes."""

    status: int
    kind: str
    body: bytes


class RunPage(Protocol):
    """A page of a recorded run: judged, or while it goes on."""

    name: str
    title: str
    every: int
    body_class: str | None
    bar: Html | None

    def state(self) -> str:
        """Another word whenever the page would read otherwise."""

    def head(self) -> Html:
        """What stands at its top."""

    def sections(self, leads: Leads) -> list[Section]:
        """Its parts."""


class Site:
    """`runs` are pages of recorded runs by the name they have in an address."""

    def __init__(self, shelf: Shelf, runs: Mapping[str, RunPage] | None = None) -> None:
        self.shelf = shelf
        self.runs = dict(runs or {})
        #: The path all addresses begin with; the server says which.
        self.base = "/"
        #: Pages as they were made last, with a word nobody can guess in place of the nonce.
        self._pages: OrderedDict[tuple[str, str, str, str], Html] = OrderedDict()
        self._blank = new_key()
        self._lock = threading.Lock()

    @property
    def first(self) -> str:
        """The page to open, behind the base: the run, the one text, or the list."""
        if self.runs:
            return f"run/{next(iter(self.runs))}"
        keys = self.shelf.keys
        if os.path.isfile(self.shelf.path) and keys:
            return f"spec/{keys[0]}"
        return ""

    def answer(self, steps: list[str], query: Mapping[str, str], nonce: str) -> Answer:
        """What is asked for. Raises Refused."""
        match steps:
            case [] | [""]:
                made = self._list(query, nonce)
            case [name] if name in _FILES:
                return Answer(200, _FILES[name], file_text(name).encode("utf-8"))
            case ["spec", key] if self.shelf.has(key):
                made = self._spec(key, query, nonce)
            case ["predicted", key] if self.shelf.has(key):
                made = self._predicted(key, query, nonce)
            case ["run", name] if name in self.runs:
                made = self._run(self.runs[name], nonce)
            case ["state"]:
                return Answer(200, _PLAIN, self.shelf.list_state().encode())
            case ["state", "spec", key] if self.shelf.has(key):
                return Answer(200, _PLAIN, self.shelf.state(key).encode())
            case ["state", "predicted", key] if self.shelf.has(key):
                state = self._predictions(key, query.get("joint", "")).state
                return Answer(200, _PLAIN, state.encode())
            case ["state", "run", name] if name in self.runs:
                return Answer(200, _PLAIN, self.runs[name].state().encode())
            case _:
                raise Refused(404, "there is no such page")
        return Answer(200, _HTML, made.encode("utf-8"))

    def _list(self, query: Mapping[str, str], nonce: str) -> Html:
        live = self._live("state", self.shelf.list_state(), nonce, _LIST_EVERY)
        listed = self.shelf.list(lambda key: f"{self.base}spec/{key}")
        sections = list_sections(
            listed, self.shelf.refused, query.get("show", ""), query.get("words", "")
        )
        head = html(self._up(top=True), tag("h1", f"Heat treatment in {_name(self.shelf.path)}"))
        return page("Specifications", head, [*sections], live, foot=legend())

    def _spec(self, key: str, query: Mapping[str, str], nonce: str) -> Html:
        """The page of a text; made once for all tabs that show it."""
        reading, joint = query.get("reading", FIRST), query.get("joint", "")
        reading = reading if reading in READINGS else FIRST
        state = self.shelf.state(key)
        _, checked = self.shelf.checked(key)
        joint = joint if joint in checked.joints else ""
        name = (key, reading, joint, state)
        with self._lock:
            made = self._pages.get(name)
            if made is None:
                made = self._pages[name] = self._spec_page(key, reading, joint, state, checked)
            self._pages.move_to_end(name)
            if len(self._pages) > _PAGES:
                self._pages.popitem(last=False)
        return Html(made.replace(self._blank, nonce))

    def _spec_page(self, key: str, reading: str, joint: str, state: str, checked: Checked) -> Html:
        leads = self.leads(key)
        kept = f"&joint={quote(joint)}" if joint else ""
        predicted = None
        if can_be_asked(checked):
            where = f"{self.base}predicted/{key}{kept.replace('&', '?')}"
            predicted = invitation(checked, where)
        try:
            good = self.shelf.good(key)
            sections = spec_sections(checked, reading, leads, good, joint, predicted)
        except Exception as error:
            if os.environ.get("HTS_DEBUG"):
                raise
            # A page that says so, and goes on asking: the next save may mend it.
            sections = [Section("findings", "Not shown", tag("p", fault(error), class_="notice"))]
        links = {name: f"?reading={name}{kept}" for name in READINGS}
        head = spec_head(checked, reading, links, self._up(), predicted=predicted is not None)
        live = self._live(f"state/spec/{key}", state, self._blank)
        foot = printed_foot(checked)
        return page(title_of(checked), head, sections, live, two=True, printed=foot)

    def _predictions(self, key: str, joint: str) -> Predictions:
        """Those of the text as it is now, begun when they are first asked for."""
        number, checked = self.shelf.checked(key)
        chosen = checked.chosen(joint)
        made = checked.kept(
            f"predictions {chosen}", lambda: Predictions(checked, chosen, str(number))
        )
        assert isinstance(made, Predictions)
        made.begin()
        return made

    def _predicted(self, key: str, query: Mapping[str, str], nonce: str) -> Html:
        joint = query.get("joint", "")
        predictions = self._predictions(key, joint)
        checked, asked = predictions.checked, f"?joint={quote(joint)}" if joint else ""
        live = self._live(f"state/predicted/{key}{asked}", predictions.state, nonce)
        back = tag("a", f"To {title_of(checked)}", href=f"{self.base}spec/{key}{asked}")
        head = html(self._up(), tag("h1", f"Predicted: {title_of(checked)}"), tag("p", back))
        return page(
            f"Predicted: {title_of(checked)}", head, predicted_sections(predictions), live,
            printed=f"Prediction, never evidence: {printed_foot(checked)}",
        )  # fmt: skip

    def _run(self, run: RunPage, nonce: str) -> Html:
        state = run.state()
        live = self._live(f"state/run/{run.name}", state, nonce, run.every)
        head = html(self._up(), run.head())
        sections = run.sections(self.leads(""))
        two = any(section.id == "text" for section in sections)
        return page(
            run.title, head, sections, live, two=two, body_class=run.body_class, bar=run.bar
        )

    def leads(self, key: str) -> Leads:
        """Where places lead, seen from the page of a text."""

        def lead(span: Span) -> str:
            other = self.shelf.key_of(span.source.path)
            if not other:
                return ""
            line = f"#L{span.source.position(span.start)[0]}"
            return line if other == key else f"{self.base}spec/{other}{line}"

        return lead

    def _up(self, *, top: bool = False) -> Html:
        links = [tag("li", tag("a", "All specifications", href=self.base,
                               aria_current="page" if top else None))]  # fmt: skip
        links += [
            tag("li", tag("a", run.title, href=f"{self.base}run/{name}"))
            for name, run in self.runs.items()
        ]
        return tag("nav", tag("ul", *links), aria_label="Pages")

    def _live(self, ask: str, state: str, nonce: str, every: int | None = None) -> Live:
        live = Live(f"{self.base}{ask}", state, nonce, self.base)
        return live if every is None else live._replace(every=every)


@lru_cache
def file_text(name: str) -> str:
    """One of the files that all pages share."""
    with open(os.path.join(os.path.dirname(__file__), name), encoding="utf-8") as file:
        return file.read()


def _name(path: str) -> str:
    return os.path.basename(os.path.abspath(path)) or path
