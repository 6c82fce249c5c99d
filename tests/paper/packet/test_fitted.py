"""How tables, lists, facts and forms are fitted to a page as it gets wider, and which of two
layouts a sheet of some height has: told in millimetres, one line for each room."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace as Stub
from typing import Any

import pytest

from hts.checking.rules.examples import BASES
from hts.job.compiler.document import Document
from hts.paper.packet import (
    cycle,
    drawn,
    gates,
    groups,
    key_sheet,
    letters,
    packet_files,
    placing,
    tables,
)
from hts.paper.packet.frame import Frame
from hts.paper.packet.heads import heads
from hts.paper.packet.pages import BOX, Pages
from hts.paper.sheet import A4, LETTER
from tests import told
from tests.paper.packet.jobs import of_text
from tests.rich import texts

KEPT = Path(__file__).with_name("told") / "fitted.txt"
ROOMS = (30.0, 45.0, 60.0, 80.0, 116.0, 140.0, 173.0, 220.0, 271.0)
LONG = "Insulated with two layers of ceramic fibre blanket, joints staggered, wired every 150 mm. "
TABLES: dict[str, tuple[list[str], list[list[str]]]] = {
    "figures": (["Tag", "degC", "mm", "none"], [["T1", "705 (1301)", "40 1/2", ""],
                                                ["T2", "free", "-3", ""]]),
    "words": (["What", "How"], [["Insulation", LONG * 2], ["Ends", "closed and vented"]]),
    "one word": (["A heading of several words", "Thermocouple"], [["", "W" * 40], ["x", ""]]),
    "many": ([f"Column {n}" for n in range(9)], [["1 5/8", "T1", "12 %", *["abcdef"] * 6]] * 6),
    "whole": (["Step", "Also", "Value"], [["heat to 315 degC, free", LONG, "4 h"]]),
}  # fmt: skip


def _fitted() -> Iterator[str]:
    for name, (titles, rows) in TABLES.items():
        for room in ROOMS:
            for style, keep, whole in ((tables.NORMAL, 1, ()), (tables.SMALL, 2, (0,))):
                parts = tables.fitted(titles, rows, room, style, keep, whole)
                for part in parts:
                    shown = " ".join(f"{width:.2f}" for width in part["widths"])
                    yield (
                        f"{name} in {room:g}: {shown}; {part['body']}/{part['head']}, high "
                        f"{tables.height(part):.2f}, {part['numbers']} {part['rows'][0]}"
                    )
            upright = (1,) if room > 100 else ()
            wanted = [1.0 + n % 3 for n in range(len(titles))]
            given = tables.given(wanted, titles, rows, room, upright)
            yield f"{name}, given {room:g}: {' '.join(f'{width:.2f}' for width in given)}"


def _on_pages() -> Iterator[str]:
    for room in (60.0, 110.0, None):
        for size in (A4, LETTER):
            page = Pages(Frame(size), room)
            page.section("Section", across=True)
            page.new_page()
            page.new_page()
            for count in (5, 6, 9):
                page.bullets([LONG[: 12 + 9 * n] for n in range(count)])
            page.heading(3, "Heading")
            page.line(LONG * 3)
            page.facts([("Insulation", LONG), ("Ends", "closed"), ("Bore", ""),
                        ("Value", "m" * 24), ("Long", "l " * 101),
                        ("A name " * 6, "x")])  # fmt: skip
            for letter, count in (
                ("x", 5),
                ("x", 6),
                ("x" * 120, 4),
                ("x" * 899, 1),
                ("y " * 450, 1),
            ):
                rows = [[f"T{n}", letter, BOX] for n in range(count)]
                page.table(("Tag", "Text", "Box"), rows, changed=["", "B"])
                page.form(("Tag", "Text", "Placed by"), rows, (2, 5, 1), 6.0, (2,), dense=count > 5,
                          changed=["C 12345678"], whole=count == 6)  # fmt: skip
            for part in page.parts:
                yield f"{size.name}, {room}, across {part['across']}: {page.height:.2f}"
                yield from told.leaves(part["blocks"])


def _heads() -> Iterator[str]:
    for letters_of in (1, 99, 100, 101, 160):
        named = Document("x" * letters_of, "N" * letters_of, "R" * (letters_of // 9), *[""] * 5)
        for beside in (0.0, 30.0):
            yield from told.leaves(heads(named, 173.0, beside))


def test_what_is_fitted_to_a_page() -> None:
    found = {"tables": _fitted(), "on pages": _on_pages(), "heads": _heads()}
    kept = {name: "\n".join(lines) for name, lines in found.items()}
    told.each_once(KEPT, kept, lambda line: line.partition(" ")[0].partition("/")[0])


def test_a_word_that_just_fits_is_not_broken() -> None:
    """With a hundredth of a millimetre to spare for rounding, which one letter never takes."""
    gap = "\N{ZERO WIDTH SPACE}"
    wide = letters.width("Wulst", 9.0)
    for less, parts in ((0.0, "Wulst"), (0.009, "Wulst"), (0.011, f"Wuls{gap}t")):
        # A line as wide as the room is never looked at word by word.
        assert letters.broken("Wulst a", wide - less, 9.0) == f"{parts} a"
    assert letters.broken("ab", letters.width("a", 9.0), 9.0) == f"a{gap}b"
    assert letters.broken("abc", 0.01, 9.0) == f"a{gap}b{gap}c"
    exact = letters.width("a b", 9.0)
    assert letters.broken("a b", exact, 9.0) == "a b"
    marked = letters.width(f"a{letters.MEMORY}", 10.0) - letters.width("a", 10.0)
    assert marked == pytest.approx(10 * 25.4 / 72 * 0.6)


#: Without a preheat: one treatment, with the layout beside the section.
_SINGLE = re.sub(r"\npreheat W12 .*?\n}\n", "", BASES["butt"], flags=re.S)


class _Sheet(Pages):
    """A sheet on its side of any height, that notes what is put onto it."""

    def __init__(self, high: float) -> None:
        super().__init__(Frame(A4))
        self.high = high
        self.parts = [{"across": True, "blocks": []}]
        self.noted: list[str] = []

    @property
    def depth(self) -> float:
        return self.high

    def drawing(self, svg: str, size: tuple[float, float], said: str, beside: Any = None) -> None:
        column = "" if beside is None else f" beside {beside.room:g}"
        self.noted.append(f"drawing{column}, {size[0]:g} by {size[1] - self.high:+.1f}")

    def columns(self, made: Any, parts: Any = ()) -> None:
        self.noted.append(f"columns {[round(each.room, 1) for each in made]} {parts}")

    def table(self, heads: Any, rows: Any, *more: Any, **named: Any) -> None:
        self.noted.append("table")

    def new_page(self) -> None:
        self.noted.append("page")


def test_which_layout_a_sheet_has(monkeypatch: pytest.MonkeyPatch) -> None:
    """The heights at which what is drawn and what stands beside it part, or come together."""
    for module, name in ((cycle, "cycle_chart"), (drawn, "section"), (drawn, "unrolled")):
        monkeypatch.setattr(module, name, lambda *_, **__: "<svg/>")
    treatments = cycle._treatments
    several, single = (groups.subjects(job)[0] for job in (texts.job("pipe-a"), of_text(_SINGLE)))
    lines = []
    for subject, write, heights in (
        (several, cycle.at_the_pipe, range(74, 140)),
        (single, cycle.at_the_pipe, range(88, 92)),
        (single, drawn.at_the_pipe, range(93, 97)),
    ):
        before: list[str] = []
        treated = treatments(_Sheet(150.0), subject)
        monkeypatch.setattr(cycle, "_treatments", lambda *_, made=treated: made)
        for high in heights:
            sheet = _Sheet(float(high))
            write(sheet, subject)
            if sheet.noted != before:
                about = f"{write.__module__.rpartition('.')[2]} from {high} mm"
                lines.append(f"{len(treated)} treatments, {about}: {'; '.join(sheet.noted)}")
                before = sheet.noted
    told.same(KEPT.with_name("layouts.txt"), "all", "\n".join(lines))


def test_columns_to_sign_are_as_wide_as_their_heads(monkeypatch: pytest.MonkeyPatch) -> None:
    """The heads lie as they are read while they have room, and are turned else."""
    monkeypatch.setattr(gates, "_gates", lambda *_: [])
    made: list[str] = []

    def form(_: Any, heads: Any, rows: Any, widths: Any, *more: Any, **named: Any) -> None:
        made.append(f"{heads[3:]} {[round(wide, 1) for wide in widths]} {more} {named}")

    monkeypatch.setattr(Pages, "form", form)
    for names in (("W1 bake",), ("W1 a", "W2 a"), ("W1 a", "W1 after-heating"),
                  ("W1 " + "m" * 14, "W2 a b c"), tuple(f"W{n} bake" for n in range(7)),
                  tuple(f"W{n} stress-relief" for n in range(7))):  # fmt: skip
        runs: Any = [
            (Stub(joint=Stub(name=name.split()[0])), Stub(program=Stub(name=name.split(" ", 1)[1])))
            for name in names
        ]
        gates._part(_Sheet(150.0), Stub(), runs)  # type: ignore[arg-type]
    told.same(KEPT.with_name("layouts.txt"), "columns to sign", "\n".join(made))


@pytest.mark.parametrize(
    ("leads", "words"),
    [((1, 1), " Leads at least 1 up."), ((1,), " Leads at least 1 up."), ((1, 2), ""),
     ((None, None), ""), ((1, None), "")],
)  # fmt: skip
def test_leads_that_are_alike_are_told_once(leads: tuple[int | None, ...], words: str) -> None:
    shown: Any = Stub(text=lambda lead, way: f"{lead} {way}")
    sheet: Any = Stub(tags=[Stub(lead=lead) for lead in leads])
    assert placing._leads(shown, sheet) == words


def test_names_are_cut_to_the_room_there_is(monkeypatch: pytest.MonkeyPatch) -> None:
    """The joints in two fifths of the head, in bold letters of 9.5 points."""
    cut: list[Any] = []
    known = letters.short

    def noted(text: str, room: float, points: float, bold: bool = False) -> str:
        cut.append((text, room, points, bold))
        return known(text, room, points, bold)

    monkeypatch.setattr(letters, "short", noted)
    subject = groups.subjects(texts.job("pipe-a"))[0]
    packet_files.pages(subject, A4, ())
    room = Frame(A4).room(False)
    assert (subject.name, room, 9.0, False) in cut
    assert (subject.headed, room * 0.4, 9.5, True) in cut


def test_the_hottest_hold_is_told() -> None:
    """One without an upper end comes last."""
    holds: Any = [
        Stub(window=None),
        Stub(window=Stub(high=None)),
        Stub(window=Stub(high=Stub(value=-1))),
    ]
    assert [key_sheet._top(step) for step in holds] == [0, 0, -1]
