"""Results to be written out, and texts that try to break out of what they are written into."""

from __future__ import annotations

from hypothesis import strategies as st

from hts.base.findings import Finding, Kind, Label, Severity
from hts.base.text import Source
from hts.checking.checker.results import Results, UncheckedFile

ERROR = Kind("X101", "first-kind", "error", "Summary one.", "Why it is.", "What to do.", "error")
WARNING = Kind("X102", "second-kind", "warning", "Summary two.", "Why it is.", "What to do.")
ADVICE = Kind("X103", "third-kind", "advice", "Summary three.", "Why it is.", "What to do.")
KINDS = (ERROR, WARNING, ADVICE)

TEXT = "joint W12 {\n\twall 25,4 mm\n  pipe ü𝄞 x\n}\n"

#: Each would end or start something in one of the formats.
HOSTILE = (
    "a\n::error file=x::y",
    "a%0A::stop-commands::x",
    "]]></failure><testcase/>",
    '"/><!-- & &amp; <b>',
    "\x00\x07\x1b[31m\x7f\x9b",
    "\u202eevil\u202c \u2066x\u2069 \u200f",
    "\ud800 \udc80 \ufffe \uffff",
    "[press here](https://example.invalid) {0} {{1}}",
    "a,b:c=d;e",
    "\r\n\u2028\u2029\x85\x0b\x0c",
    "x" * 3000,
)

texts = st.sampled_from(HOSTILE) | st.text(max_size=20)


def results(*findings: Finding, checked: tuple[str, ...] = ("a.hts",)) -> Results:
    made = Results()
    made.checked += checked
    made.findings += findings
    return made


def finding(
    kind: Kind = WARNING,
    message: str = "no zone heats from 3:00 to 4:00",
    piece: str = "25,4",
    *,
    file: str = "a.hts",
    text: str = TEXT,
    address: str = "W12/wall",
    severity: Severity | None = None,
) -> Finding:
    """A finding at a piece of a text."""
    start = text.index(piece)
    at = Label(Source(text, file).span(start, start + len(piece)))
    return Finding(kind, message, at, address=address, severity=severity)


@st.composite
def any_results(draw: st.DrawFn) -> Results:
    """Results of hostile files, with hostile messages, remarks, names and reasons."""
    files = draw(st.lists(texts.filter(bool), min_size=1, max_size=3, unique=True))
    made = Results()
    made.checked += files
    for _ in range(draw(st.integers(0, 4))):
        source = Source(draw(texts), draw(st.sampled_from(files)))
        ends = draw(st.lists(st.integers(0, len(source.text)), min_size=2, max_size=2))
        label = Label(source.span(*sorted(ends)), draw(texts))
        made.findings.append(
            Finding(
                draw(st.sampled_from(KINDS)),
                draw(texts.filter(bool)),
                label,
                address=draw(texts),
                others=[label] if draw(st.booleans()) else [],
                notes=[draw(texts)],
                help=draw(texts),
            )
        )
    if draw(st.booleans()):
        made.failures.append(UncheckedFile(draw(texts.filter(bool)), draw(texts.filter(bool))))
    return made
