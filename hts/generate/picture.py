"""The picture of an editor in the README: a real text, with what the program really tells of it.

It is drawn from the header of Tern Island with one zone made too short, so that there is something
to find. Nothing in it is written by hand but the slip itself.
"""

from __future__ import annotations

import os
import re
from xml.sax.saxutils import escape

from hts.base.findings import Finding
from hts.base.text import Source
from hts.checking.checker.run import check_case
from hts.checking.govern.case import Case
from hts.editor import tokens as words
from hts.editor.completion import completion
from hts.editor.hints import hints
from hts.editor.names import Index, Names
from hts.editor.offer import Surroundings
from hts.editor.place import Text
from hts.editor.reasons import Reason, reasons_at
from hts.job.explain import why
from hts.language.model import Loader, Spec

PATH = "grammar/editors/editor.svg"
#: The slip, the lines that are shown, and where the pointer and the cursor are.
_SLIP = ("from 4:30 to 7:30", "from 4:30 to 7:00")
_SHOWN = (
    ("  governing thickness", 1),
    ("  heating by resistance", 11),
    ("    T8   monitors soak edge", 2),
    ("  hold 690", 2),
)
_HOVERED = "for 2 h at most"
_WRITTEN = "T9   monitors heated edge"
_OFFERS = 6

_SIZE, _WIDE, _LINE = 14, 8.43, 21
_LEFT, _TOP, _WIDTH = 64, 20, 920
_COLOURS = {
    words.KEYWORD: "#1d4e89",
    words.PROPERTY: "#6a2c91",
    words.MODIFIER: "#6a2c91",
    words.MEMBER: "#0b5d46",
    words.VARIABLE: "#7a4100",
    words.NUMBER: "#202020",
    words.TYPE: "#505050",
    words.STRING: "#8c1c1c",
    words.COMMENT: "#606060",
    words.OPERATOR: "#202020",
    words.FUNCTION: "#0b5d46",
}


def generate(root: str) -> dict[str, str]:
    """The picture by its path."""
    path = os.path.join(root, "specs", "p22-header.hts")
    loader = Loader(root)
    whole = loader.read(path)
    assert _SLIP[0] in whole.text
    source = Source(whole.text.replace(*_SLIP), whole.name, path)
    case = Case(Spec(source, loader))
    found = check_case(case)
    reasons = [
        Reason(each.address, each.quantity, each.heading, why.text([each]))
        for each in why.every(case)
    ]
    return {PATH: _Picture(case.spec, found, reasons).svg()}


class _Picture:
    """Draws line by line; what is told of a line stands below it."""

    def __init__(self, spec: Spec, found: list[Finding], reasons: list[Reason]) -> None:
        self.spec = spec
        self.source = spec.source
        self.placed = Text(spec.source)
        self.found = found
        self.reasons = reasons
        self.hints = hints(self.placed, spec.joints, reasons)
        self.tokens = words.tokens(self.placed)
        self.y = float(_TOP)
        self.parts: list[str] = []

    def svg(self) -> str:
        """The whole picture."""
        for number, (begins, count) in enumerate(_SHOWN):
            if number:
                self._ellipsis()
            first = self.source.position(self.source.text.index(f"\n{begins}") + 1)[0]
            for line in range(first, first + count):
                self._line(line)
        height = self.y + 12
        errors = ", ".join(f"{f.kind.code} {f.kind.name}" for f in self.found)
        title = (
            "A specification in an editor: coloured words, a finding under its line, what the "
            "rules ask for a value, what can be written at the cursor"
        )
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{_WIDTH}" height="{height:g}" '
            f'viewBox="0 0 {_WIDTH} {height:g}" role="img" font-family="ui-monospace, '
            f'SFMono-Regular, Menlo, Consolas, monospace" font-size="{_SIZE}">\n'
            f"<title>{escape(title)}</title>\n<desc>Findings: {escape(errors)}</desc>\n"
            f'<rect width="{_WIDTH}" height="{height:g}" fill="#ffffff" stroke="#b8b8b8"/>\n'
        )
        return head + "\n".join(self.parts) + "\n</svg>\n"

    def _line(self, number: int) -> None:
        start = self.source.line_starts[number - 1]
        text = self.source.line(number)
        self.y += _LINE
        self._text(_LEFT - 16, self.y, str(number), "#707070", end=True)
        at = start
        for token in self.tokens:
            if token.start < start or token.start >= start + len(text):
                continue
            self._plain(at, token.start, start)
            word = self.source.text[token.start : token.end]
            x = _LEFT + (token.start - start) * _WIDE
            self._text(x, self.y, word, _COLOURS[token.kind], bold=token.kind == words.KEYWORD)
            at = token.end
        self._plain(at, start + len(text), start)
        for hint in self.hints:
            if start <= hint.offset <= start + len(text) and hint.offset == start + len(text):
                self._text(_LEFT + (len(text) + 1) * _WIDE, self.y, hint.label, "#606060")
        for finding in self.found:
            if start <= finding.at.span.start < start + len(text):
                self._finding(finding, start)
        if _HOVERED in text:
            self._hover(start + text.index(_HOVERED) + len("for "), start)
        if _WRITTEN in text:
            self._offers(start + text.index(_WRITTEN) + len(_WRITTEN.split()[0]) + 12, start)

    def _plain(self, at: int, end: int, start: int) -> None:
        """Braces, which are no words."""
        for found in re.finditer(r"\S+", self.source.text[at:end]):
            x = _LEFT + (at + found.start() - start) * _WIDE
            self._text(x, self.y, found[0], "#202020")

    def _finding(self, finding: Finding, start: int) -> None:
        """A waved line under what is meant, and the finding in words below."""
        left = _LEFT + (finding.at.span.start - start) * _WIDE
        length = (finding.at.span.end - finding.at.span.start) * _WIDE
        y = self.y + 4
        steps = "".join(f" l 3 {-3 if n % 2 else 3}" for n in range(round(length / 3)))
        self.parts.append(
            f'<path d="M {left:g} {y:g}{steps}" fill="none" stroke="#9a4a00" stroke-width="1.5"/>'
        )
        said = [
            f"\N{BLACK UP-POINTING TRIANGLE} {finding.severity.upper()}: {finding.message}",
            f"  {finding.help}  ({finding.kind.code} {finding.kind.name})",
        ]
        self._box(left, said, "#fff4e5", "#9a4a00")

    def _hover(self, offset: int, start: int) -> None:
        """What the rules ask of the value at the pointer."""
        place = self.placed.at(offset)
        assert place is not None
        (reason, *_) = reasons_at(place, self.reasons)
        self._box(
            _LEFT + (offset - start) * _WIDE, reason.text.splitlines()[:6], "#eef3fa", "#1d4e89"
        )

    def _offers(self, offset: int, start: int) -> None:
        """What can be written at the cursor."""
        place = self.placed.at(offset)
        assert place is not None
        around = Surroundings(Names(Index(self.placed)))
        offers = completion(self.placed, place.span.start, around)[:_OFFERS]
        x = _LEFT + (place.span.start - start) * _WIDE
        self.parts.append(
            f'<path d="M {x:g} {self.y - 15:g} v 19" stroke="#202020" stroke-width="1.5"/>'
        )
        lines = [f"{each.label:<18}{each.detail}" for each in offers]
        self._box(x, lines, "#f4f4f4", "#606060")

    def _box(self, x: float, lines: list[str], fill: str, stroke: str) -> None:
        width = max(map(len, lines)) * _WIDE + 16
        x = min(x, _WIDTH - width - 12)
        top = self.y + 10
        height = len(lines) * _LINE + 8
        self.parts.append(
            f'<rect x="{x:g}" y="{top:g}" width="{width:g}" height="{height}" rx="3" '
            f'fill="{fill}" stroke="{stroke}"/>'
        )
        for number, line in enumerate(lines, 1):
            self._text(x + 8, top + number * _LINE - 3, line, "#202020")
        self.y = top + height

    def _ellipsis(self) -> None:
        self.y += _LINE
        self._text(_LEFT - 16, self.y, "…", "#707070", end=True)

    def _text(
        self, x: float, y: float, text: str, colour: str, *, end: bool = False, bold: bool = False
    ) -> None:
        anchor = ' text-anchor="end"' if end else ""
        anchor += ' font-weight="600"' if bold else ""
        fit = "" if end else f' textLength="{len(text) * _WIDE:g}" lengthAdjust="spacingAndGlyphs"'
        self.parts.append(
            f'<text x="{x:g}" y="{y:g}" fill="{colour}"{anchor}{fit} xml:space="preserve">'
            f"{escape(text)}</text>"
        )
