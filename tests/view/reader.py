"""Pages read as elements and words."""

from __future__ import annotations

from html.parser import HTMLParser


class Reader(HTMLParser):
    """Elements with their attributes; open and close in pairs."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self._open: list[str] = []
        self.feed(text)
        self.close()
        assert self._open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))
        if tag not in ("br", "link", "meta", "input"):
            self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    def elements(self, name: str) -> list[dict[str, str | None]]:
        return [attributes for tag, attributes in self.found if tag == name]

    @property
    def text(self) -> str:
        return " ".join("".join(self.words).split())
