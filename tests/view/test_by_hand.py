"""Small parts of the pages, each by values put together by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, cast

from hts.view.checked import FEW, Checked
from hts.view.source_text import _line, _Piece, _remark
from tests.rows import each_row

FEWER, MORE = [f"W{n}" for n in range(FEW)], [f"W{n}" for n in range(FEW + 1)]


@each_row(
    ("names", "asked", "chosen"),
    [
        (FEWER, "", ()),
        (FEWER, "W1", ()),
        (MORE, "", ("W0",)),
        (MORE, "W3", ("W3",)),
        (MORE, "W99", ("W0",)),
    ],
)
def test_which_joint_of_many(names: list[str], asked: str, chosen: tuple[str, ...]) -> None:
    checked = cast(Any, SimpleNamespace(joints=names))
    assert Checked.chosen(checked, asked) == chosen


@each_row(
    ("line", "pieces", "shown"),
    [
        ("", [], "&#8203;"),
        ("hold <2 h>", [], "hold &lt;2 h&gt;"),
        ("hold 2 h", [(0, 4, "begin")], '<span class="begin">hold</span> 2 h'),
        ("hold\t2 h", [(5, 8, "value")], 'hold\t<span class="value">2 h</span>'),
        # One in another, one across the border of another, one beyond the line.
        (
            "hold 2 h",
            [(0, 8, "a"), (5, 6, "b")],
            '<span class="a">hold </span><span class="a b">2</span><span class="a"> h</span>',
        ),
        (
            "hold 2 h",
            [(0, 6, "a"), (5, 8, "b")],
            '<span class="a">hold </span><span class="a b">2</span><span class="b"> h</span>',
        ),
        ("hold 2 h", [(-3, 4, "a"), (7, 20, "b")],
         '<span class="a">hold</span> 2 <span class="b">h</span>'),
    ],
)  # fmt: skip
def test_a_line_is_cut_where_pieces_begin_and_end(
    line: str, pieces: list[tuple[int, int, str]], shown: str
) -> None:
    assert str(_line(line, [_Piece(*piece) for piece in pieces])) == shown


@each_row(
    ("line", "begins"),
    [("hold 2 h", None), ("# all", 0), ("hold # why", 5), ('"no # 4"', None), ('"a" # "b"', 4)],
)
def test_where_a_remark_begins(line: str, begins: int | None) -> None:
    expected = None if begins is None else _Piece(begins, len(line), "remark")
    assert _remark(line) == expected
