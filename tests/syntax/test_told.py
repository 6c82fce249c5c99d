"""What is told of texts that are not in order, and what is still read of them, word for word."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from hts.base.findings import Report
from hts.base.text import Source
from hts.syntax import parse
from hts.syntax.braces import DEEPEST, MOST
from hts.syntax.lalr import Token
from hts.syntax.parser import items_of
from hts.syntax.pasted import _dash, letters_for_digits
from hts.syntax.syntax_errors import MOST_ITEMS
from hts.syntax.tree import Entry, Item
from tests.rows import each_row
from tests.syntax.test_recovery import CASES, SOUND
from tests.told import each_once, without_figures

TOLD = Path(__file__).with_name("told")

#: Braces where layout tells, and where it does not, what was meant.
BRACES = [
    "a {\n  b\n  c\n    d\n  }\n}\n",
    "a\n  b\n\n  c\n}\nd\n",
    "a\n  b {\n  c\n}\n",
    "a {\n    b {\n      c\n  }\n  d\n}\ne\n",
    "a {\n  b {\n    c\n}\nd {\n  e\n}\n",
    "a {\n  b {\n    c\n  d\n\ne\n",
    "a { b {\n  c\n}\n",
    "a {",
    "a {\n\n",
    "}\n\n}\na\n}\n",
    "a\n}\n\nb\n",
    'a "x"\n  b\n}\n',
    '"x"\n  b\n}\n',
    "5 mm\n  b\n}\n",
    "a\n\n\n  {\n\n  b\n}\nc\n",
    "{\n{\n",
    "a {\n{\n",
    "a {\n  b\n}\n{\n  c\n}\n",
    "a {\n" * (DEEPEST + 1),
    "a {\n" * DEEPEST + "}\n" * DEEPEST,
    "a {\n" * (DEEPEST + 1) + "b\n" + "}\n" * 3 + "c\n",
    "}\n" * (MOST + 2) + "a {\n  b\n",
    "a\n  b\n}\n" * (MOST - 1) + "c {\n" * (DEEPEST + 1) + "}\n",
    "}\n" * (MOST + 1) + "a {\n" * (DEEPEST + 2) + "}\n",
]
#: Signs that come with pasted text, one after the other.
PASTED = [
    "clock 3 o’clock\n", "clock 10:30 o'clock\n", "clock 3 o ' Clock\n", "clock 3 ‘ clock “ x”\n",
    "date 5.11.2026 ;\n", "date 15.1.2026“x”\n", "note “two words”\n", "note „open\n", "note ””\n",
    "note “a\\b”\n", "range 690–720 degC\n", "range 690.5 — 720.5 degC – 5\n", "low –10 degC\n",
    "low −10.5 degC\n", "name – x\n", "a\u00a05 mm\n", "a\u2009b\r\n", "a b; c\n", "a: 5 mm\n",
    "a = 5\n",
    "a ≤ 5 mm\n", "a ≥ 5 mm\n", "5 × 4\n", "5 · 4\n", "5 ÷ 4\n", "1½ in\n", "1 ¼ in\n", "¾ in\n",
    "5 ºC\n",
    "2″\n", "2′\n", "a （b\n", "a ５ mm\n", "a $ b\n", "a \x01 b\n", "a б$\n",
    "clock 3 x 5.1.2026 $ 3 o'clock\n",
    "range 7O5 .. 720 degC\n", "range 69O +/- 15\n", "range 6l.5 .. 7 mm\n", "wall O .. 5\n",
    "x IB .. 5 mm\n",
    '2" ..\n', 'pipe 2"\n', 'note "open\n', 'note "a \\n b"\n', 'note "a {\n  b\n}\n', "a ..",
    "a 5 mm ..",
    "a +/-", "{\n  a\n}\n", ".. 5\n", "a ) b\n", "a, , b\n", "a 1,5 2,5\n", "a ,\n", "( a\n",
    "a {\n} b {\n  c\n}\n",
    "a { b } 5 mm\n", "a {\n  b $ c {\n    d\n  }\n  e\n}\n", "a 690 .. $ 720 degC\n",
    "a 5 mm +/- {\n  b\n}\n",
]  # fmt: skip
#: Brackets and lists over several lines, up to where a block or the text ends.
BRACKETS = [
    "a ( 1\n  + 2\n)\nb\n", "a ((1\n)\n)\nb\n", "a (1\nb\n", "a ) (\nb\n", "a (\n{\nb )\n}\n",
    "a { b (1\n) }\nc\n", "a 1,\n2 {\n  b\n}\n", "a 1,\n\n2\n", "a (1, # why\n 2)\nb\n",
    "a (1) (2\n)\n",
]  # fmt: skip
#: Marks of a merge.
MERGES = [
    "a\n<<<<<<< ours\nb 1\n||||||| base\nb 2\n=======\nb 3\n>>>>>>> theirs\nc\n",
    "<<<<<<< x\nb\n=======\nc\n>>>>>>> y\n<<<<<<< x\r\nd\r\n=======\r\ne\r\n>>>>>>> y\r\nf\n",
    "=======\na\n",
    "a\n>>>>>>> only\nb\n",
    "a <<<<<<< b\n",
    "<<<<<<<< eight\n",
]


def outline(entries: Iterable[Entry], text: str, depth: int = 0) -> list[str]:
    """What was read: each entry with its items, `!` where it is broken, its block below."""
    lines = []
    for entry in entries:
        items = " | ".join(shown(item, text) for item in entry.items[:8])
        items += f" and {len(entry.items) - 8} more" if len(entry.items) > 8 else ""
        sign = "!" if entry.broken else "-"
        lines.append(f"{'  ' * depth}{sign} {entry.start}:{entry.end} {items}".rstrip())
        if entry.block is not None:
            lines += outline(entry.block.entries, text, depth + 1)
    return lines


def shown(item: Item, text: str) -> str:
    written = ascii(text[item.start : item.end])[1:-1]
    return f"{item.kind} {written}" if len(written) < 60 else f"{item.kind} of {len(written)}"


def told(text: str) -> str:
    report = Report()
    source = Source(text, "text.hts")
    tree = parse(source, report)
    assert "".join(tree.pieces()) == text
    lines = [ascii(text)[1:-1] if len(text) < 200 else f"{ascii(text[:40])[1:-1]} and so on"]
    for found in report.findings[:6] + report.findings[6:][-2:]:
        span = found.at.span
        marked = ascii(text[span.start : span.end])[1:-1]
        place = "{}:{}".format(*source.position(span.start))
        lines += [f"{found.kind.code} {place} <{marked}> {found.message}", f"  {found.help}"]
    lines.append(f"{len(report.findings)} in all")
    return "\n".join([*lines, *outline(tree.entries, text)[: 3 * DEEPEST]])


TEXTS = {
    "causes": [text for text, _, _ in CASES],
    "sound": [*SOUND, *BRACKETS],
    "braces": BRACES,
    "pasted": PASTED,
    "merges": MERGES,
    "long": ["a" + " 5 mm" * n + " {\n  b\n}\nc\n" for n in (MOST_ITEMS - 1, MOST_ITEMS)]
    + ["a {\n  b" + " (x 5)" * 300 + "\n}\n", "a (" + "\n b" * 199 + "\n)\nc\n",
       "a (" + "\n b" * 200 + "\n)\nc\n", "a 1" + ",\n 2" * 250 + "\nb\n"],
}  # fmt: skip


def in_the_midst(line: str) -> str:
    """Of items of a line their kinds alone: a figure, a word and a date go on alike."""
    words, sign, items = without_figures(line).partition(" => ")
    if not sign:
        return words
    return re.sub(r"\b(NUMBER|QUANTITY|WORD|DATE|CLOCK)\b [^|]*", "# ", f"{items} ")


def test_told() -> None:
    texts = {name: "\n".join(map(told, texts)) for name, texts in TEXTS.items()}
    each_once(TOLD / "recovery.txt", {**texts, "midst": "\n".join(midst())}, in_the_midst)


def midst() -> list[str]:
    """All pairs and triples of what a line in the midst of writing is made of."""
    parts = ["..", "+/-", "5 mm", "7", "12:00", "word", "2026-11-20", "2x"]
    lines = []
    for text in [*parts, *(f"{a} {b}" for a in parts for b in parts),
                 *(f"{a} {b} {c}" for a in parts for b in ("..", "+/-") for c in parts),
                 "a ( 1 .. 2", 'a "open .. 2']:  # fmt: skip
        tokens, items = items_of(Source(text, "text.hts"))
        assert [t.text for t in tokens] == [
            part.text for item in items
            for part in ([item] if isinstance(item, Token) else [item.low, item.sign, item.high])
            if part
        ]  # fmt: skip
        lines.append(f"{text} => " + " | ".join(shown(item, text) for item in items))
    return lines


@each_row(
    ("rest", "meant"),
    [("7O5 degC", "705 degC"), ("7O5\t°C x", "705 °C"), ("7O5", "705"), ("l2.5 mm", "12.5 mm"),
     ("705 degC", ""), ("mm", ""), ("7O5x", ""), ("7O5/2", ""), ("7x5", "")],
)  # fmt: skip
def test_a_letter_for_a_digit(rest: str, meant: str) -> None:
    told = letters_for_digits(rest)
    assert told.partition("?")[0] == (f"did you mean {meant}" if meant else "")


def test_a_dash_within_a_range_and_just_behind_one() -> None:
    assert _dash("1–2–3", 1).startswith("write a range as 1 .. 2")
    assert _dash("1–2–3", 3) == "write the minus sign as -: -3"
    assert _dash("a–b", 1).startswith("write the hyphen - in its place")
