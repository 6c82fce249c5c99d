"""The blocks around a line: told by braces alone."""

from hts.base.text import Source
from hts.base.text.blocks import blocks_around, brace_lines

TEXT = 'a {\n  b { # { no\n    x "{"\n  }\n  } }\n}\nc {\n'


def test_blocks_open_where_a_line_begins() -> None:
    source = Source(TEXT, "text.hts")
    lines = TEXT.split("\n")
    around = [blocks_around(source, number) for number in range(1, 9)]
    assert around[0] == [] and around[1] == [lines[0]]
    assert around[2] == around[3] == [lines[0], lines[1]]
    assert around[4] == [lines[0]] and around[5] == around[6] == []
    assert around[7] == [lines[6]]


def test_lines_with_braces() -> None:
    text = "a {\n  b\n}\n}\n{ }\nc"
    assert brace_lines(Source(text, "x")) == [1, 3, 4, 5]
    assert brace_lines(Source("a\nb", "x")) == []
